from revealbook.records.trials import Trials


def test_only_the_tests_that_were_made_stand_there() -> None:
    trials = Trials.model_validate({"water_spray": {"minutes": 15, "water_inside": False}})
    assert trials.water_spray is not None
    assert trials.water_spray.water_inside is False
    assert trials.air_leakage is None


def test_leakage_is_read_at_pressures_of_either_sign() -> None:
    readings = [{"pressure_pa": -50, "flow_m3_h": 1.2}, {"pressure_pa": 50, "flow_m3_h": 0}]
    trials = Trials.model_validate({"air_leakage": {"readings": readings}})
    assert trials.air_leakage is not None
    assert trials.air_leakage.readings is not None
    assert [one.pressure_pa for one in trials.air_leakage.readings] == [-50, 50]
