"""From a photometry file to the light on a rack."""
import pytest

import theca

LAMP = """IESNA:LM-63-2002
[TEST] 1
[LUMINAIRE] made for this test
TILT=NONE
1 -1 1.0 4 3 1 2 0.1 0.6 0
1 1 60
0 30 60 90
0 45 90
900 700 300 0
900 600 200 0
900 500 100 0
"""


def test_a_photometry_file_becomes_photons_on_the_rack(tmp_path, Q):
    file = tmp_path / "lamp.ies"
    file.write_text(LAMP)
    photometry = theca.light.read_ies(file)
    assert photometry.name == "made for this test"
    assert photometry.power.m_as("W") == 60
    assert photometry.lamp_flux is None
    assert photometry.flux.check("[luminosity]")

    flux = photometry.flux * theca.light.photons_per_light(theca.light.illuminant_d65())
    lamp = theca.light.Luminaire(intensity=theca.light.WebIntensity(web=photometry.web, flux=flux), power=photometry.power)
    placed = theca.light.PlacedLuminaire(luminaire=lamp, x=Q(60, "cm"), y=Q(30, "cm"), mounting_height=Q(40, "cm"))
    tank = theca.light.Waterbody(length=Q(120, "cm"), width=Q(60, "cm"), refractive_index=1.34, attenuation=Q(0.1, "1/m"),
                                 walls=theca.light.Walls.pane)
    plain = theca.light.map([placed], tank, Q(20, "cm"), 12, 6)
    sphere = theca.light.map([placed], tank, Q(20, "cm"), 12, 6, theca.light.Receiver(spherical=True))
    assert plain.mean().m_as("umol/m**2/s") > 20
    assert 1.0 < (sphere.mean() / plain.mean()).m_as("") < 1.5

    bands = theca.light.band_optics(theca.light.photon_bands(theca.light.illuminant_d65(), 5), Q(25, "degC"), Q(35.2, "g/kg"))
    in_bands = theca.light.map([placed], tank, bands, Q(20, "cm"), 12, 6)
    assert 0.9 < (in_bands.mean() / plain.mean()).m_as("") < 1.1


def test_a_malformed_file_is_refused_with_its_line(tmp_path):
    file = tmp_path / "lamp.ies"
    file.write_text(LAMP.replace("600", "6OO"))
    with pytest.raises(theca.ParseError, match=r"10.*6OO"):
        theca.light.read_ies(file)
