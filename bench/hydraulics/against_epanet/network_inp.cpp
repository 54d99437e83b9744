// Writes the benchmarks' layouts as EPANET input files: theca_network_inp FOLDER.
#include <cmath>
#include <fstream>
#include <iostream>
#include <string>

#include "../network_layouts.hpp"

namespace {
using namespace theca;
using namespace theca::hydraulics;

double litres_per_second(const VolumeFlow& flow) { return 1e3 * si(flow); }
double millimetres(const Length& length) { return 1e3 * si(length); }

void write(const Network& net, const std::string& file) {
  std::ofstream out(file);
  out.precision(15);
  const auto with_node = [&](bool junction, auto&& row) {
    for (std::size_t v = 0; v < net.nodes.size(); ++v)
      if ((net.nodes[v].kind == NodeKind::junction) == junction) row(v, net.nodes[v]);
  };
  out << "[JUNCTIONS]\n";
  with_node(true, [&](std::size_t v, const NetworkNode& node) {
    out << 'n' << v << " 0 " << litres_per_second(node.demand) << '\n';
  });
  out << "[RESERVOIRS]\n";
  with_node(false, [&](std::size_t v, const NetworkNode& node) { out << 'n' << v << ' ' << si(node.level) << '\n'; });
  out << "[PIPES]\n";
  for (std::size_t i = 0; i < net.pipes.size(); ++i) {
    const NetworkPipe& p = net.pipes[i];
    out << 'p' << i << " n" << p.from << " n" << p.to << ' ' << si(p.pipe.length) << ' ' << millimetres(p.pipe.bore)
        << ' ' << millimetres(p.pipe.roughness) << ' ' << p.pipe.minor_loss_K << ' '
        << (p.passage == Passage::forward_only ? "CV" : "OPEN") << '\n';
  }
  out << "[PUMPS]\n";
  for (std::size_t i = 0; i < net.pumps.size(); ++i)
    out << "pump" << i << " n" << net.pumps[i].from << " n" << net.pumps[i].to << " HEAD curve" << i << " SPEED "
        << net.pumps[i].relative_speed << '\n';
  out << "[CURVES]\n";
  for (std::size_t i = 0; i < net.pumps.size(); ++i)
    for (const CurvePoint& point : net.pumps[i].curve.points)
      out << "curve" << i << ' ' << litres_per_second(point.flow) << ' ' << si(point.head) << '\n';
  out << "[OPTIONS]\nUNITS LPS\nHEADLOSS D-W\nVISCOSITY " << si(bench::water) / 1.022e-6  // over that at 20 degC
      << "\nACCURACY 0.00001\nHEADERROR 1e-9\nFLOWCHANGE 1e-9\nTRIALS 500\n[END]\n";
  if (!out) throw std::runtime_error("cannot write " + file);
}
}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "theca_network_inp FOLDER\n";
    return 1;
  }
  const std::string folder = argv[1];
  for (const std::size_t count : {4U, 12U, 48U})
    write(bench::tanks(count), folder + "/tanks_" + std::to_string(count) + ".inp");
  write(bench::grid_of_1000(), folder + "/grid_of_1000.inp");
}
