"""Structs as Python objects."""
import copy
import gc
import pickle

import numpy as np
import pytest

import theca
from theca import si


def test_fields_are_given_as_keywords_and_come_back_as_quantities(Q, wall):
    assert wall.thickness.m_as("mm") == pytest.approx(11.91, rel=1e-14)
    assert wall.si.height_m == pytest.approx(16 * 0.0254, rel=1e-15)
    with pytest.raises(TypeError):
        theca.structure.Panel(Q(1, "m"))


def test_missing_and_unknown_fields_are_named(Q):
    with pytest.raises(TypeError, match="Panel needs height, thickness, material"):
        theca.structure.Panel(width=Q(1, "m"))
    with pytest.raises(TypeError, match="Panel has no field 'depth'"):
        theca.structure.Panel(depth=Q(1, "m"))
    with pytest.raises(theca.UnitError, match="width: expected a length"):
        theca.structure.Panel(width=1.4)
    with pytest.raises(TypeError, match="needs height_m"):
        si.structure.Panel(width_m=1.0)


def test_defaults_are_those_of_the_struct(wall):
    assert wall.bottom == theca.structure.hinged()
    assert wall.top == theca.structure.free_edge()
    strength = theca.materials.glass_design_strength()
    assert theca.structure.StrengthCriterion(strength=strength).load_factor == 1.0


def test_a_misspelt_field_cannot_be_set(wall):
    with pytest.raises(AttributeError, match="no field 'thicknes'"):
        wall.thicknes = wall.thickness
    with pytest.raises(AttributeError):
        wall.si.thicknes_m = 0.01


def test_nested_fields_write_through(Q, wall):
    wall.material.youngs_modulus = Q(72, "GPa")
    assert wall.si.material.youngs_modulus_Pa == pytest.approx(72e9)


def test_copies_are_independent(Q, wall):
    for made in (copy.copy(wall), copy.deepcopy(wall), wall.replace(), pickle.loads(pickle.dumps(wall))):
        assert made == wall and made is not wall
        made.material.youngs_modulus = Q(1, "GPa")
        made.width = Q(9, "m")
        assert made != wall and wall.width == Q(1.4, "m") and wall.material.youngs_modulus > Q(60, "GPa")


def test_replace_changes_what_it_is_told(Q, wall):
    thin = wall.replace(thickness=Q(6, "mm"))
    assert thin.thickness.m_as("mm") == pytest.approx(6) and thin.width == wall.width
    with pytest.raises(TypeError):
        wall.replace(thicknes=Q(6, "mm"))


def test_results_can_be_pickled_and_still_answer(Q, wall):
    bent = theca.structure.bend(wall, theca.structure.hydrostatic(Q(14, "inch"), Q(1023, "kg/m**3")))
    again = pickle.loads(pickle.dumps(bent))
    assert again == bent
    assert again.at(Q(0.5, "m"), Q(0.2, "m")) == bent.at(Q(0.5, "m"), Q(0.2, "m"))
    assert pickle.loads(pickle.dumps(bent.si)) == bent.si


def test_enums(Q, wall):
    side = theca.structure.Side.left
    assert pickle.loads(pickle.dumps(side)) is side
    assert theca.structure.name(side) == "left" == theca.structure.name("left")
    bent = theca.structure.bend(wall, theca.structure.hydrostatic(Q(14, "inch"), Q(1023, "kg/m**3")))
    with pytest.raises(TypeError, match="one of bottom, left, right, top"):
        bent.reaction_at("front", Q(0.5, "m"))


def test_repr_says_what_it_is(wall):
    assert repr(wall).startswith("Panel(width=1.4 m, height=0.4064 m")
    assert "thickness_m=0.01191" in repr(wall.si)


def test_lists_and_maps_that_come_out_cannot_be_changed_unnoticed(design):
    tank = design.tanks.kinds["A"]
    with pytest.raises((TypeError, AttributeError)):
        tank.names.append("T99")
    with pytest.raises(TypeError):
        design.tanks.kinds["C"] = tank
    with pytest.raises(TypeError):
        design.rooms.layout.rows["attic"] = ("T01",)
    with pytest.raises(ValueError):
        design.si.tanks.two_tier_variant.rack_planes_above_floor_m[0] = 1.0


def test_elements_of_lists_and_maps_write_through(Q, design):
    mine = copy.deepcopy(design)
    mine.tanks.kinds["A"].water_depth = Q(13, "inch")
    assert mine.tanks.kinds["A"].water_depth.m_as("inch") == pytest.approx(13)
    mine.pump.curve[2].head = Q(27, "ft")
    assert mine.pump.curve[2].head.m_as("ft") == pytest.approx(27)
    assert design.tanks.kinds["A"].water_depth.m_as("inch") == pytest.approx(14)


def test_references_outlive_what_they_came_from(Q, design):
    mine = copy.deepcopy(design)
    point, tank = mine.pump.curve[0], mine.tanks.kinds["A"]
    name = tank.names[0]
    mine.pump.curve = [theca.study.PumpPoint(flow=Q(0, "gph"), head=Q(10, "ft")),
                       theca.study.PumpPoint(flow=Q(100, "gph"), head=Q(1, "ft"))]
    mine.tanks = theca.study.Tanks(kinds={"Z": copy.deepcopy(tank)}, glass=mine.tanks.glass, joint=mine.tanks.joint)
    gc.collect()
    assert point.head.m_as("ft") == pytest.approx(30)
    assert tank.names[0] == name and len(mine.pump.curve) == 2 and list(mine.tanks.kinds) == ["Z"]
    del mine
    gc.collect()
    assert tank.names[0] == name and point.head.m_as("ft") == pytest.approx(30)


def test_optional_parts(Q, design):
    mine = copy.deepcopy(design)
    tank = mine.tanks.kinds["A"]
    brace = tank.rim_brace
    brace.width = Q(3, "inch")
    assert tank.rim_brace.width.m_as("inch") == pytest.approx(3)
    with pytest.raises(ValueError, match="still in use"):
        tank.rim_brace = None
    del brace
    tank.rim_brace = None
    assert tank.rim_brace is None
    tank.rim_brace = theca.study.RimBrace(width=Q(2, "inch"), thickness=Q(12, "mm"), design_thickness=Q(11.91, "mm"))
    assert tank.rim_brace.width.m_as("inch") == pytest.approx(2)


def test_many_assignments_leave_no_broken_memory(Q, design):
    mine = copy.deepcopy(design)
    held = []
    for i in range(200):
        held.append(mine.pump.curve[0])
        mine.pump = copy.deepcopy(design.pump)
    assert {round(p.head.m_as("ft"), 9) for p in held} == {30.0}


def test_lists_of_quantities(Q):
    table = theca.light.TabulatedIntensity(angles=Q(np.array([0, 45, 90]), "degree"),
                                           values=[Q(90, "umol/s/sr"), Q(50e-6, "mol/s/sr"), Q(0, "umol/s/sr")])
    assert table.values.m_as("umol/s/sr") == pytest.approx([90, 50, 0])
    with pytest.raises(theca.UnitError, match="values: expected a photon intensity"):
        table.values = Q(np.array([1.0, 2.0]), "umol/s")
    with pytest.raises(TypeError, match="one-dimensional"):
        table.si.angles_rad = np.zeros((2, 2))
