#include "engine/demand/machines/registry.h"

namespace lobewise::demand {

const std::vector<MachineInfo>& all_machines() {
  static const std::vector<MachineInfo> list{
#define LOBEWISE_INFO(Type, member) Type::kInfo,
      LOBEWISE_MACHINES(LOBEWISE_INFO)
#undef LOBEWISE_INFO
  };
  return list;
}

namespace {

int count(const DrivenMachine& machine) {
  int set = 0;
#define LOBEWISE_COUNT(Type, member) set += machine.member.has_value();
  LOBEWISE_MACHINES(LOBEWISE_COUNT)
#undef LOBEWISE_COUNT
  return set;
}

}  // namespace

bool described(const DrivenMachine& machine) { return count(machine) > 0; }

Result<Demand> compute(const DrivenMachine& machine) {
  const int set = count(machine);
  if (set != 1)
    return input_error(
        "machine", "",
        set == 0 ? "Say what is driven: exactly one machine." : "Only one machine can be driven at a time.");
#define LOBEWISE_COMPUTE(Type, member) \
  if (machine.member) return compute(*machine.member);
  LOBEWISE_MACHINES(LOBEWISE_COMPUTE)
#undef LOBEWISE_COMPUTE
  return Error{ErrorKind::internal, "machine", "", "No machine was found.", 0};
}

}  // namespace lobewise::demand

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::DrivenMachine>() {
  using namespace demand;
  static const RecordType type = [] {
    RecordType record{"driven_machine", "Driven machine", "Exactly one machine.", {}, true};
#define LOBEWISE_FIELD(Type, member) \
  record.fields.push_back(field<&DrivenMachine::member>(Type::kInfo.id, Type::kInfo.title, Type::kInfo.help));
    LOBEWISE_MACHINES(LOBEWISE_FIELD)
#undef LOBEWISE_FIELD
    return record;
  }();
  return type;
}
