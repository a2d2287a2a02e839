import pytest
from documents.glaze_room import whole_room


@pytest.fixture(scope="session")
def glaze_room():
    return whole_room()
