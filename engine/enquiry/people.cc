#include "engine/enquiry/people.h"

#include <string>
#include <vector>

#include "engine/demand/people.h"

namespace lobewise::enquiry {
namespace {

struct Text {
  std::string path;
  std::string_view words;
};

/// Every text that a person wrote about the drive; the customer's name is none.
std::vector<Text> texts_of(const Enquiry& enquiry) {
  std::vector<Text> texts{{"title", enquiry.title}, {"note", enquiry.note}};
  if (enquiry.duty)
    for (std::size_t i = 0; i < enquiry.duty->shocks.size(); ++i)
      texts.push_back({"duty.shocks[" + std::to_string(i) + "].what", enquiry.duty->shocks[i].what});
  if (enquiry.incumbent) {
    texts.push_back({"incumbent.note", enquiry.incumbent->note});
    texts.push_back({"incumbent.trouble", enquiry.incumbent->trouble});
    for (std::size_t i = 0; i < enquiry.incumbent->troubles.size(); ++i)
      texts.push_back({"incumbent.troubles[" + std::to_string(i) + "].note", enquiry.incumbent->troubles[i].note});
  }
  return texts;
}

demand::WhoRides who_rides_in(const Enquiry& enquiry, const std::vector<Text>& texts) {
  std::vector<std::string_view> all;
  for (const Text& text : texts) all.push_back(text.words);
  // A bucket elevator titled `Elevator 3` says itself what it lifts.
  if (enquiry.machine.bucket_elevator) all.emplace_back(demand::BucketElevator::kInfo.title);
  return demand::who_rides(all);
}

}  // namespace

bool lifts_goods_unasked(const Enquiry& enquiry) {
  return !enquiry.machine.hoist && who_rides_in(enquiry, texts_of(enquiry)).aboard == demand::Aboard::goods;
}

std::optional<Error> people_refused(const Enquiry& enquiry) {
  using demand::Aboard;
  const std::vector<Text> texts = texts_of(enquiry);
  const demand::WhoRides who = who_rides_in(enquiry, texts);
  const bool answered = enquiry.machine.hoist && enquiry.machine.hoist->lifts_people == false;
  if (who.aboard != Aboard::people && (who.aboard != Aboard::unclear || answered)) return std::nullopt;
  for (const Text& text : texts)
    if (text.words.find(who.words) != std::string_view::npos) return demand::people_refused(who, text.path);
  return demand::people_refused(who, "title");
}

}  // namespace lobewise::enquiry
