// Is every byte still what was saved?

#include <fmt/format.h>

#include "apps/store/content.h"
#include "apps/store/enquiry_rows.h"
#include "apps/store/transact.h"

namespace lobewise::store {

Outcome<std::vector<std::string>> Store::check() {
  return in(Access::read, [&](Connection& connection) {
    std::vector<std::string> wrong = connection.self_check();
    if (!wrong.empty()) return wrong;
    for (const Row& row : connection.run("SELECT sha256 FROM content")) {
      try {
        (void)fetch(connection, text(row[0]));
      } catch (const Problem& problem) {
        if (problem.trouble != Trouble::damaged) throw;
        wrong.push_back(problem.message);
      }
    }
    if (!wrong.empty()) return wrong;
    for (const Row& row :
         connection.run("SELECT id, number, revisions, title, customer, search, "
                        "(SELECT count(*) FROM revision r WHERE r.enquiry = e.id), "
                        "(SELECT coalesce(max(revision), 0) FROM revision r WHERE r.enquiry = e.id) FROM enquiry e")) {
      if (integer(row[2]) != integer(row[6]) || integer(row[2]) != integer(row[7])) {
        wrong.push_back(fmt::format("Enquiry {} should have {} revisions and has {}.", integer(row[1]), integer(row[2]),
                                    integer(row[6])));
        continue;
      }
      const Summary is = summary(connection, text(row[0]));
      if (is.title != text(row[3]) || is.customer != text(row[4]) || is.search != text(row[5]))
        wrong.push_back(
            fmt::format("The line of enquiry {} in lists does not agree with its revisions.", integer(row[1])));
    }
    return wrong;
  });
}

}  // namespace lobewise::store
