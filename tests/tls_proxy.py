"""A small proxy that ends TLS before a served home, as households and hosts run one."""

import http.client
import shutil
import ssl
import subprocess
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest

NAME = "lawn.test"
_HOP = ("connection", "keep-alive", "transfer-encoding", "te", "upgrade")


def certificate(folder: Path) -> tuple[Path, Path]:
    """A certificate and its key for the proxy's name, signed by themselves; the test is skipped
    where nothing makes one."""
    if shutil.which("openssl") is None:
        pytest.skip("openssl is not installed")
    made, key = folder / "proxy.crt", folder / "proxy.key"
    words = "req -x509 -newkey ec -pkeyopt ec_paramgen_curve:P-256 -nodes -days 2"
    names = ["-subj", f"/CN={NAME}", "-addext", f"subjectAltName=DNS:{NAME}"]
    files = ["-out", str(made), "-keyout", str(key)]
    subprocess.run(["openssl", *words.split(), *names, *files], check=True, capture_output=True)
    return made, key


@contextmanager
def proxied(backend: int, files: tuple[Path, Path]) -> Iterator[int]:
    """A proxy before a port of this machine; its own port."""

    class Forward(BaseHTTPRequestHandler):
        protocol_version = "HTTP/1.1"

        def log_message(self, *_: object) -> None:  # type: ignore[override]
            """Nothing is logged."""

        def _forward(self) -> None:
            length = int(self.headers.get("content-length") or 0)
            given = {k: v for k, v in self.headers.items() if k.lower() not in _HOP}
            # What who asks says of himself is not passed on: the proxy says it.
            told = {"X-Forwarded-For": self.client_address[0], "X-Forwarded-Proto": "https"}
            asked = http.client.HTTPConnection("127.0.0.1", backend, timeout=60)
            try:
                body = self.rfile.read(length) if length else None
                asked.request(self.command, self.path, body, {**given, **told})
                answer = asked.getresponse()
                content = answer.read()
            except OSError:
                self.send_error(502)
                return
            finally:
                asked.close()
            self.send_response(answer.status)
            for name, value in answer.getheaders():
                if name.lower() not in (*_HOP, "content-length", "date", "server"):
                    self.send_header(name, value)
            self.send_header(
                "Content-Length", answer.getheader("content-length") or str(len(content))
            )
            self.end_headers()
            self.wfile.write(content)

        do_GET = do_POST = do_HEAD = _forward

    server = ThreadingHTTPServer(("127.0.0.1", 0), Forward)
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(*files)
    server.socket = context.wrap_socket(
        server.socket, server_side=True, do_handshake_on_connect=False
    )
    server.daemon_threads = True
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield server.server_address[1]
    finally:
        server.shutdown()
        server.server_close()
        thread.join(20)
