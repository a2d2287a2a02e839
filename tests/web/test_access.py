"""A shared app: the access code is asked for, compared whole, guessed at only slowly, forgotten on stop."""

import pytest
from starlette.testclient import TestClient

from evenface.interfaces.web.access import MOST_IN_ALL, MOST_OF_ONE, SIGNS, Access, TooOften, new_code
from evenface.interfaces.web.app import build_app
from evenface.store import JobStore

HOME = "http://192.168.7.5:8000"


class Clock:
    now = 100.0

    def __call__(self):
        return self.now


@pytest.fixture
def store(tmp_path):
    made = JobStore(tmp_path / "home")
    yield made
    made.close()


def stranger_at(store, access):
    client = TestClient(
        build_app(store, access=access), base_url=HOME, headers={"Origin": HOME}, follow_redirects=False
    )
    client.get("/")
    return client


def test_a_code_is_new_each_time_and_holds_no_sign_that_is_mistaken():
    codes = {new_code() for _ in range(200)}
    assert len(codes) == 200
    assert {sign for code in codes for sign in code} == {*SIGNS, "-"}
    assert {len(code) for code in codes} == {14}


def test_the_code_is_taken_as_people_type_it():
    access = Access("abcd-efgh-jkmn")
    assert access.fits(" ABCD efgh JKMN ", "a")
    assert not access.fits("abcd-efgh-jkm", "a")
    assert not access.fits("", "a")


def test_one_client_may_try_so_often_and_then_not_even_rightly():
    clock = Clock()
    access = Access("abcd-efgh-jkmn", clock)
    for _ in range(MOST_OF_ONE):
        assert not access.fits("wrong", "10.0.0.1")
    with pytest.raises(TooOften) as often:
        access.fits("abcd-efgh-jkmn", "10.0.0.1")
    assert often.value.wait_s == pytest.approx(60.0)
    assert access.fits("abcd-efgh-jkmn", "10.0.0.2")
    clock.now += 60.1
    assert access.fits("abcd-efgh-jkmn", "10.0.0.1")


def test_all_together_have_a_limit_too():
    access = Access("abcd-efgh-jkmn", Clock())
    for number in range(MOST_IN_ALL):
        access.fits("wrong", f"10.0.0.{number}")
    with pytest.raises(TooOften):
        access.fits("abcd-efgh-jkmn", "10.0.1.1")


def test_a_household_does_not_gain_tries_by_its_many_addresses():
    access = Access("abcd-efgh-jkmn", Clock())
    for number in range(MOST_OF_ONE):
        access.fits("wrong", f"2001:db8::{number + 1}")
    with pytest.raises(TooOften):
        access.fits("wrong", "2001:db8::ffff")
    assert not access.fits("wrong", "2001:db8:1::1")


@pytest.mark.parametrize("page", ["/", "/jobs/1", "/jobs/1/paper/packet.pdf", "/static/live.js", "/access"])
def test_without_the_code_there_is_only_the_page_that_asks(store, page):
    store.add("Glaze room", "format = 1\n")
    answer = stranger_at(store, Access()).get(page)
    assert answer.status_code == 401
    assert 'name="code"' in answer.text
    assert "Glaze room" not in answer.text
    assert "unsafe" not in answer.headers["content-security-policy"]


@pytest.mark.parametrize("page", ["/api/v1/jobs", "/api/v1/openapi.json"])
def test_programs_are_told_in_their_own_way(store, page):
    answer = stranger_at(store, Access()).get(page)
    assert answer.status_code == 401
    assert answer.headers["content-type"] == "application/problem+json"
    assert answer.headers["www-authenticate"].startswith("Bearer")


def test_who_gives_the_code_gets_in_until_the_stop(store):
    access = Access()
    client = stranger_at(store, access)
    assert client.post("/access", data={"code": "wrong"}).status_code == 403
    assert client.get("/").status_code == 401
    answer = client.post("/access", data={"code": access.code.upper()})
    assert (answer.status_code, answer.headers["location"]) == (303, "/")
    cookie = next(one for one in answer.headers.get_list("set-cookie") if one.startswith("evenface_session="))
    assert "HttpOnly" in cookie
    assert "samesite=strict" in cookie.lower()
    assert "max-age" not in cookie.lower()
    assert client.get("/").status_code == 200
    again = TestClient(build_app(store, access=Access(access.code)), base_url=HOME, cookies=client.cookies)
    assert again.get("/").status_code == 401


def test_the_code_page_refuses_foreign_pages_and_too_many_tries(store):
    access = Access()
    client = stranger_at(store, access)
    assert (
        client.post(
            "/access", data={"code": access.code}, headers={"Origin": "http://evil.example"}
        ).status_code
        == 403
    )
    assert client.post("/access", data={"code": "x" * 3000}).status_code == 413
    for _ in range(MOST_OF_ONE):
        client.post("/access", data={"code": "wrong"})
    answer = client.post("/access", data={"code": access.code})
    assert answer.status_code == 429
    assert 1 <= int(answer.headers["retry-after"]) <= 60
    assert client.get("/").status_code == 401


@pytest.mark.parametrize(
    ("host", "status"), [("evil.example", 403), ("192.168.7.5.evil.example", 403), ("10.0.0.3:80", 401)]
)
def test_a_shared_app_answers_to_figures_and_its_own_name(store, host, status):
    assert stranger_at(store, Access()).get("/", headers={"Host": host}).status_code == status


def test_strangers_never_see_the_lasting_secret(store):
    client = TestClient(build_app(store, access=Access()), base_url=HOME)
    assert store.secret() not in str(client.get("/").headers)


def test_a_program_gives_the_code_with_each_request_and_is_slowed_like_anybody(store):
    access = Access()
    client = stranger_at(store, access)
    right = {"Authorization": f"Bearer {access.code}"}
    assert client.get("/api/v1/jobs", headers=right).status_code == 200
    for _ in range(MOST_OF_ONE):
        assert client.get("/api/v1/jobs", headers={"Authorization": "Bearer x"}).status_code == 401
    assert client.get("/api/v1/jobs", headers=right).status_code == 429
