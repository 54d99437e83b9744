"""A year of a farm from Python: checkpoints as text, threads, books that balance."""
import pytest

import theca
from theca import si

from test_batch import farm as batch


def farm(days=3):
    f, heat = si.farm, batch(days=days)
    heat.traced = []
    return f.FarmYear(
        heat=heat, heater_cutout_K=303.15,
        upkeep=[f.YearUpkeep(alkalinity_mol_per_m3=2.9, alkalinity_threshold_mol_per_m3=1.4, calcium_kg_per_m3=0.42,
                             full_dose_mol_per_s=1e-4, correction_s=3 * 86400.0, make_up_kg_per_s=0.01, above_m3=0.1,
                             below_m3=0.2, changed_m3=0.5, fallow=1, days_between_changes=1)],
        stock=[f.YearStock(slots=100, occupancy=0.9, cohorts=2, ppfd_mol_per_m2_s=250e-6)],
        coral=f.YearCoral(growth=f.Growth(cut_area_m2=9e-4, sale_area_m2=33e-4, rate_per_s=1e-7, healing_s=0.0),
                          calcification_kg_per_m2_s=1.4e-7, measured_at_mol_per_m2_s=250e-6, measured_hours_s=36000.0,
                          onset_mol_per_m2_s=250e-6),
        failures=[f.FailureRate(kind=f.YearFailure.pump_off, rate_per_s=1e-5, repair_s=7200.0)])


def test_a_checkpoint_as_text_runs_on_to_the_same_year():
    year = si.farm.prepare_year(farm())
    whole = si.farm.advance(year, si.farm.start_year(year, seed=3), 3, threads=2)
    half = si.farm.restored(si.farm.saved(si.farm.advance(year, si.farm.start_year(year, seed=3), 1)))
    assert si.farm.saved(si.farm.advance(year, half, 2)) == si.farm.saved(whole)


def test_the_books_of_a_summary_balance():
    year = si.farm.prepare_year(farm())
    total = si.farm.summary(si.farm.advance(year, si.farm.start_year(year), 3))
    s, w = total.stock, total.water
    assert s.start + s.cut == s.alive + s.dead + s.sold + s.no_room > 0
    assert w.start_kg + w.added_kg + w.renewed_in_kg == pytest.approx(
        w.renewed_out_kg + w.overflowed_kg + w.used_kg + w.now_kg, rel=1e-12)
    assert w.used_kg > 0.0 and total.days == 3 and total.tanks == 24


def test_what_does_not_fit_is_named():
    year = farm()
    year.upkeep = []
    with pytest.raises(theca.InvalidInput, match="length of upkeep"):
        si.farm.prepare_year(year)
