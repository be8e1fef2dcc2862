"""The pages that lie at a static host: a lawn's season to be read, an index that says nothing, and
what stands under an address that was withdrawn.

They stand alone: no script, no form, no request to anywhere. Of the place they say nothing, and
nothing of when nobody is there.
"""

from turfplan.export.season_view import season_view
from turfplan.export.templates import digest_of, render, stylesheet
from turfplan.message import Day, Message
from turfplan.messages import Words
from turfplan.phrases import page
from turfplan.phrases import published as phrases
from turfplan.plain_text import plain_text
from turfplan.records.plan import Plan

_STYLE = "web.css"


def published_page(plan: Plan, words: Words, feed: str) -> bytes:
    """The season as a page beside its calendar, whose file has the name `feed`; UTF-8."""
    day = plan.now.date()
    # Reasons of days and what is put off may say when nobody is there: they stay at home.
    put_off = set(map(str, plan.put_off))
    view = season_view(plan, day, words)
    html = render(
        "web/published.html.jinja",
        words,
        lawn=plain_text(plan.lawn.name) or words.text(page.lawn()),
        view=view,
        stop="" if view.stop in put_off else view.stop,
        put_off=put_off,
        day=words.value(Day(day)),
        feed=feed,
        **_alone(),
    )
    return html.encode()


def index_page(words: Words) -> bytes:
    """What a host shows of the folder itself, in the place of a list of its files; UTF-8."""
    return _notice(words, phrases.nothing(), phrases.nothing_say())


def withdrawn_page(words: Words) -> bytes:
    """What takes the place of a page whose address was withdrawn; UTF-8."""
    return _notice(words, phrases.withdrawn(), phrases.withdrawn_say())


def _notice(words: Words, title: Message, sentence: Message) -> bytes:
    told = {"title": words.text(title), "sentence": words.text(sentence)}
    return render("web/published_notice.html.jinja", words, **told, **_alone()).encode()


def _alone() -> dict[str, str]:
    """The styles that a page carries, and a policy that lets these very ones through and nothing
    else."""
    style = stylesheet(_STYLE)
    policy = f"default-src 'none'; style-src {digest_of(style)}; base-uri 'none'"
    return {"style": style, "policy": f"{policy}; form-action 'none'"}
