// Watts of light are not moles of photons.
// expect: PhotonFlux&
#include "theca/units.hpp"

using namespace theca;

void light(const PhotonFlux& ppf);

void use() {
#ifdef THECA_RIGHT
  light(190.9_umol_s);
#else
  light(84_W);
#endif
}
