from tests.factories.vessels import make_drive, make_vessel
from tests.fit.test_pairs_in_stock import bladed
from yardapp import db


def test_pairs_in_stock_are_told_with_where_each_is(ada):
    with db.transaction() as session:
        right, left = bladed(session, "right", place="Shed").tag, bladed(session, "left").tag
        drive = make_drive(session, make_vessel(session), position="port").id

    (row,) = ada.get("/pairs?boat=&place=").get_json()["rows"]

    assert (row["right"], row["left"], row["where"]) == (right, left, ["Shed", "Rack C, bin 7"])
    assert ada.get(f"/pairs?drive={drive}").get_json()["drive"] == "Kittiwake, port"
    assert ada.get("/pairs?for_sale=yes").get_json()["rows"] == []


def test_two_are_put_side_by_side(ada):
    with db.transaction() as session:
        tags = [bladed(session, "right").tag for _ in range(2)]

    said = ada.get(f"/pairs/{tags[0]}/{tags[1]}").get_json()

    assert said["verdict"] == "does not go on"
    assert [check["name"] for check in said["checks"]] == ["pair: hands"]
    assert said["works"] == ["another propeller"]


def test_a_tag_that_nothing_carries_is_not_found(ada):
    assert ada.get("/pairs/P-9998/P-9999").status_code == 404


def test_a_drive_that_there_is_not_is_told_by_name(ada, must_refuse):
    assert set(must_refuse(ada.get("/pairs?drive=99"), 422)) == {"drive"}
