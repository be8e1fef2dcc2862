"""What this machine is called in its network."""

from turfplan.serve.reach import reach_of


def own_address() -> str:
    """This machine's address in its network, as far as it has one; nothing is sent to learn it."""
    import socket

    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as one:
        try:
            one.connect(("192.0.2.1", 9))
        except OSError:
            return "127.0.0.1"
        return str(one.getsockname()[0])


def own_names() -> tuple[str, ...]:
    """What this machine is called in its network: by name, and by name as networks without a name
    server have it."""
    import socket

    name = socket.gethostname().partition(".")[0].lower()
    return (name, f"{name}.local") if name else ()


def address_at_home() -> str | None:
    """This machine's address in its network; None where it is in none."""
    own = own_address()
    return None if reach_of(f"http://{own}") == "machine" else own
