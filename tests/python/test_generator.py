"""The reader of headers that writes the binding: what it takes, and what stops it."""
import pathlib

import pytest

generate_binding = pytest.importorskip("generate_binding")

HEADER = """// Invented: swings.
#pragma once
#include "theca/units.hpp"
namespace theca::swing {
namespace kernel {
template <class T> T hidden(T length_m) { return length_m; }
}
/// How a swing hangs.
enum class Rope { chain, /// < not a comment of a member
  cord  ///< natural fibre
};
/// A swing.
struct Swing {
  Length length;  ///< of the rope,
                  // over all
  Mass seat, child;
  Rope rope = Rope::chain;
  std::string name;
  bool operator==(const Swing&) const = default;
  /// Lowest point. @throws InvalidInput  angle over 90 deg
  Length lowest(const Angle& swung) const { return swung.value() > 1 ? length : length; }
 private:
  int secret = 0;
};
/// Period of small swings.
/// @param swing   hangs freely
/// @param gravity local, with a comma, (and brackets)
/// @return the time there and back
/// @source textbook, from memory
Time period(const Swing& swing, const Acceleration& gravity = pick<Acceleration, 2>(9.8, 1));
inline Time period(const Length& rope) { return {}; }
constexpr Length shortest = from_si<Length>(0.1);
}  // namespace theca::swing
"""


@pytest.fixture
def include(tmp_path):
    folder = tmp_path / "theca" / "swing"
    folder.mkdir(parents=True)
    (folder / "swing.hpp").write_text(HEADER.replace("chain, /// < not a comment of a member", "chain,"))
    (tmp_path / "theca" / "swing.hpp").write_text("// Everything of swings.\n")
    return tmp_path


def changed(include, old, new):
    path = include / "theca" / "swing" / "swing.hpp"
    assert old in path.read_text()
    path.write_text(path.read_text().replace(old, new))
    return generate_binding.generate(include, "swing")


def test_what_is_public_is_bound(include):
    text = generate_binding.generate(include, "swing")
    assert "hidden" not in text and "secret" not in text and "operator" not in text
    assert 's.field<&S::length>("length", "of the rope, over all", true);' in text
    assert 's.field<&S::child>("child", "", true);' in text
    assert 's.field<&S::rope>("rope", "", false);' in text and 's.field<&S::name>("name", "", false);' in text
    assert 's.method<&S::lowest>("lowest", {{"swung", "", {}}}' in text
    assert '{"chain", theca::swing::Rope::chain}, {"cord", theca::swing::Rope::cord}' in text and "natural fibre" in text
    assert 'm.constant("shortest", theca::swing::shortest' in text


def test_overloads_defaults_and_comments_come_across(include):
    text = generate_binding.generate(include, "swing")
    assert "static_cast<Time (*)(const Swing&, const Acceleration&)>(&theca::swing::period)" in text
    assert "static_cast<Time (*)(const Length&)>(&theca::swing::period)" in text
    assert "[]() -> Acceleration { return pick<Acceleration, 2>(9.8, 1); }" in text.replace("2> (", "2>(")
    assert '"local, with a comma, (and brackets)"' in text
    assert "the time there and back" in text and "textbook, from memory" in text


def test_a_comment_about_an_argument_that_does_not_exist_stops_it(include):
    with pytest.raises(generate_binding.NotUnderstood, match="period: the comment describes weather"):
        changed(include, "@param gravity ", "@param weather ")


def test_an_unknown_tag_stops_it(include):
    with pytest.raises(generate_binding.NotUnderstood, match="@sauce"):
        changed(include, "@source", "@sauce")


def test_a_constrained_template_stops_it(include):
    with pytest.raises(generate_binding.NotUnderstood, match="swing.hpp:.*constrained template"):
        changed(include, "inline Time period(const Length& rope)",
                "template <class T> requires true\ninline Time period(const Length& rope)")


def test_nothing_public_is_lost(source):
    """Every function declared in a module's headers is in the table, or among those left out with a reason."""
    from theca import si

    include = source / "include"
    for module in si._table["modules"]:
        for item in generate_binding.read_module(pathlib.Path(include), module).items:
            if item.name in generate_binding.NOT_BOUND or isinstance(item, generate_binding.Constant):
                continue
            if isinstance(item, generate_binding.Struct) and item.template and "=" not in item.template:
                continue
            part = {generate_binding.Function: "functions", generate_binding.Struct: "structs",
                    generate_binding.Enum: "enums"}[type(item)]
            assert f"{module}.{generate_binding.python_name(item.name)}" in si._table[part]
