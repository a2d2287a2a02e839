"""Memory is looked through once after the last answer, not while answers follow one another."""

import asyncio
import gc

import pytest

from evenface.interfaces.web.tidying import Tidy


@pytest.fixture
def told(monkeypatch):
    seen = []
    monkeypatch.setattr(gc, "collect", lambda: seen.append("collect"))
    monkeypatch.setattr(gc, "freeze", lambda: seen.append("freeze"))
    return seen


async def answer(scope, receive, send):
    if scope.get("fails"):
        raise ValueError("planted")


def test_after_the_last_answer_and_not_between(told):
    async def go():
        app = Tidy(answer, rest_s=0.05)
        for _ in range(5):
            await app({"type": "http"}, None, None)
        assert told == []
        await asyncio.sleep(0.15)
        assert told == ["collect", "freeze"]
        await asyncio.sleep(0.15)  # at rest nothing more is done
        assert told == ["collect", "freeze"]
        with pytest.raises(ValueError, match="planted"):
            await app({"type": "http", "fails": True}, None, None)
        await asyncio.sleep(0.15)
        assert told == ["collect", "freeze", "collect"]

    asyncio.run(go())
