#include "theca/light/shading_bodies.hpp"

#include <string>
#include <utility>

#include "limits.hpp"
#include "theca/require.hpp"

namespace theca::light {

namespace {
// The member's name, said of which body.
template <class Body, class Step>
void each(const char* kind, const std::vector<Body>& bodies, const Step& step) {
  for (std::size_t i = 0; i < bodies.size(); ++i) {
    const std::string of = " of " + std::string(kind) + " " + std::to_string(i + 1);
    step(bodies[i], [&of](const char* member) { return std::string(member) + of; });
  }
}

void require_place(const std::string& argument, const Length& value) {
  require::within(argument, value, -limits::farthest, limits::farthest);
}

void require_size(const std::string& argument, const Length& value, const Length& most) {
  require::positive(argument, value);
  require::within(argument, value, Length(), most);
}

template <class Colony>
std::vector<Colony> on_pitch(const Colony& colony, const Length& pitch, int rings, const Length& length,
                             const Length& width) {
  require::positive("radius", colony.radius);
  require::that(pitch > 2.0 * colony.radius, "pitch", pitch, "more than two radii, " + text(2.0 * colony.radius));
  require::finite("pitch", pitch);
  require::within("rings", static_cast<double>(rings), 0.0, 50.0);
  require::positive("length", length);
  require::positive("width", width);
  std::vector<Colony> result;
  for (int b = -rings; b <= rings; ++b)
    for (int a = -rings; a <= rings; ++a) {
      Colony other = colony;
      other.x = colony.x + static_cast<double>(a) * pitch;
      other.y = colony.y + static_cast<double>(b) * pitch;
      const bool on_rack = other.x >= Length() && other.x <= length && other.y >= Length() && other.y <= width;
      if ((a != 0 || b != 0) && on_rack) result.push_back(other);
    }
  return result;
}
}  // namespace

void require_valid(const ShadingBodies& bodies) {
  each("shading disc", bodies.discs, [](const ShadingDisc& d, const auto& called) {
    require_place(called("x"), d.x);
    require_place(called("y"), d.y);
    require::within(called("depth"), d.depth, Length(), limits::deepest);
    require_size(called("radius"), d.radius, limits::farthest);
  });
  each("shading cylinder", bodies.cylinders, [](const ShadingCylinder& c, const auto& called) {
    require_place(called("x"), c.x);
    require_place(called("y"), c.y);
    require::within(called("base depth"), c.base_depth, Length(), limits::deepest);
    require_size(called("height"), c.height, c.base_depth);
    require_size(called("radius"), c.radius, limits::farthest);
  });
  each("shading hemisphere", bodies.hemispheres, [](const ShadingHemisphere& h, const auto& called) {
    require_place(called("x"), h.x);
    require_place(called("y"), h.y);
    require::within(called("base depth"), h.base_depth, Length(), limits::deepest);
    require_size(called("radius"), h.radius, h.base_depth);
  });
  each("shading pipe", bodies.pipes, [](const ShadingPipe& p, const auto& called) {
    for (const auto& [name, place] :
         {std::pair("from x", p.from_x), std::pair("from y", p.from_y), std::pair("from height", p.from_height),
          std::pair("to x", p.to_x), std::pair("to y", p.to_y), std::pair("to height", p.to_height)})
      require_place(called(name), place);
    require_size(called("radius"), p.radius, limits::farthest);
    require::that(p.from_x != p.to_x || p.from_y != p.to_y || p.from_height != p.to_height, called("to x"), p.to_x,
                  "an end apart from the other");
  });
  each("shading plate", bodies.plates, [](const ShadingPlate& p, const auto& called) {
    require_place(called("x"), p.x);
    require_place(called("y"), p.y);
    require_place(called("height"), p.height);
    require_size(called("length"), p.length, limits::farthest);
    require_size(called("width"), p.width, limits::farthest);
  });
}

std::vector<ShadingCylinder> neighbours(const ShadingCylinder& colony, const Length& pitch, int rings,
                                        const Length& length, const Length& width) {
  return on_pitch(colony, pitch, rings, length, width);
}

std::vector<ShadingHemisphere> neighbours(const ShadingHemisphere& colony, const Length& pitch, int rings,
                                          const Length& length, const Length& width) {
  return on_pitch(colony, pitch, rings, length, width);
}

std::vector<ShadingDisc> neighbours(const ShadingDisc& colony, const Length& pitch, int rings, const Length& length,
                                    const Length& width) {
  return on_pitch(colony, pitch, rings, length, width);
}

}  // namespace theca::light
