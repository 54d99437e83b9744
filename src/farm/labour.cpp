#include "theca/farm/labour.hpp"

#include "theca/require.hpp"

namespace theca::farm {

double workload(std::span<const Task> tasks) {
  double share = 0.0;
  for (const Task& task : tasks) {
    require::not_negative("time of task '" + task.name + "'", task.each);
    require::not_negative("rate of task '" + task.name + "'", task.rate);
    share += task.each * task.rate;
  }
  return share;
}

Time weekly_work(std::span<const Task> tasks) { return workload(tasks) * units::week.size; }

double labour_utilisation(std::span<const Task> tasks, const Time& hired_per_week) {
  require::positive("hours hired per week", hired_per_week);
  return weekly_work(tasks) / hired_per_week;
}

Time hours_to_hire(std::span<const Task> tasks, double limit) {
  require::that(limit > 0.0 && limit <= 1.0, "utilisation limit", limit, "> 0 to 1");
  return weekly_work(tasks) / limit;
}

MoneyRate wages(const Time& hired_per_week, const MoneyRate& wage) {
  require::not_negative("hours hired per week", hired_per_week);
  require::not_negative("wage", wage);
  return hired_per_week / units::week.size * wage;
}

}  // namespace theca::farm
