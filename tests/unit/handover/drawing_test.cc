#include "apps/handover/drawing.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "apps/handover/print_pdf.h"

namespace lobewise::handover {
namespace {

TEST(Dimension, MeasuresAlongItsAxis) {
  EXPECT_DOUBLE_EQ((Dimension{{1, 2}, {4, 9}, false, 20, "", false}.measured()), 3);
  EXPECT_DOUBLE_EQ((Dimension{{1, 2}, {4, 9}, true, 20, "", false}.measured()), 7);
}

TEST(Dimension, TextMovesOutWhereThereIsNoRoom) {
  const DimensionParts wide = take_apart({{0, 0}, {100, 0}, false, 10, "100", false}, 2.5);
  EXPECT_DOUBLE_EQ(wide.text.at.x, 50);
  EXPECT_EQ(wide.arrows.size(), 2U);
  EXPECT_GT(take_apart({{0, 0}, {3, 0}, false, 10, "3.25", false}, 2.5).text.at.x, 3);
  EXPECT_LT(take_apart({{0, 0}, {3, 0}, false, 10, "3.25", true}, 2.5).text.at.x, 0);
}

TEST(Dimension, AnUprightOneIsALyingOneTurned) {
  const DimensionParts lying = take_apart({{0, 0}, {40, 5}, false, 30, "40", false}, 2.5);
  const DimensionParts upright = take_apart({{0, 0}, {5, 40}, true, 30, "40", false}, 2.5);
  ASSERT_EQ(lying.lines.size(), upright.lines.size());
  for (std::size_t i = 0; i < lying.lines.size(); ++i)
    for (std::size_t k = 0; k < lying.lines[i].points.size(); ++k) {
      EXPECT_DOUBLE_EQ(lying.lines[i].points[k].x, upright.lines[i].points[k].y);
      EXPECT_DOUBLE_EQ(lying.lines[i].points[k].y, upright.lines[i].points[k].x);
    }
}

TEST(Drawing, BoxHoldsDimensionsToo) {
  Drawing drawing;
  drawing.rectangle(Layer::outline, {0, 0}, {50, 20});
  drawing.dimensions.push_back({{0, 20}, {50, 20}, false, 30, "50", false});
  const Box box = drawing.box();
  EXPECT_DOUBLE_EQ(box.left, 0);
  EXPECT_GT(box.top, 30);
}

TEST(Dxf, ControlCodesOfOthersLoseTheirPower) {
  Drawing drawing;
  drawing.letterings.push_back({Layer::text, {0, 0}, 3, "%%u\\P\n  0\nLINE ⌀5 é", Anchor::start, false});
  const std::string dxf = drawing_dxf(drawing);
  EXPECT_EQ(dxf.find("%%u"), std::string::npos);
  EXPECT_EQ(dxf.find("\\P"), std::string::npos);
  EXPECT_EQ(dxf.find("\nLINE\n"), std::string::npos);
  EXPECT_NE(dxf.find("%%c5 \\U+00E9"), std::string::npos);
}

TEST(Pdf, LosesWhatDependsOnItsPrintingInPlace) {
  const auto pdf = [](const char* time, const char* first, const char* second) {
    return fmt::format(
        "%PDF-1.4\n<</Title (node00000007)\n/Creator (Some browser 1.0)\n/CreationDate (D:{0}+00'00')\n/ModDate "
        "(D:{0}+00'00')>>\n/ID (node{1})>>\n/ID (node{2})>>\n/Headers [(node{2})]",
        time, first, second);
  };
  const std::string once = reproducible(pdf("20261125120332", "00000210", "00000211"), "2026-11-25");
  EXPECT_EQ(once, reproducible(pdf("20311231235959", "00000007", "00000909"), "2026-11-25"));
  EXPECT_EQ(once.size(), pdf("20261125120332", "00000210", "00000211").size());
  EXPECT_NE(once.find("/CreationDate (D:20261125000000+00'00')"), std::string::npos);
  EXPECT_NE(once.find("/Creator (Lobewise        )"), std::string::npos);
  EXPECT_NE(once.find("/Title (node00000007)"), std::string::npos) << "a text stays as it was";
  EXPECT_NE(once.find("/ID (node00000001)>>\n/ID (node00000002)>>\n/Headers [(node00000002)]"), std::string::npos);
  EXPECT_EQ(reproducible("(node", "2026-11-25"), "(node");
}

TEST(Pages, AreReadFromAPlainPdf) {
  const std::string pdf =
      "%PDF-1.4\n1 0 obj\n<</Type /Pages\n/Kids [2 0 R 3 0 R]>>\nendobj\n2 0 obj\n<</Type /Page>>\nendobj\n"
      "3 0 obj\n<</Type /Pages /Kids [4 0 R]>>\nendobj\n4 0 obj\n<</Type /Page>>\nendobj\n"
      "5 0 obj\n<</a [2 0 R /XYZ 1 2 0]\n/b [4 0 R /XYZ 1 2 0]>>\nendobj\n"
      "6 0 obj\n<</Type /Catalog\n/Pages 1 0 R\n/Dests 5 0 R>>\nendobj\n";
  const auto pages = destination_pages(pdf);
  EXPECT_EQ(pages.at("a"), 1);
  EXPECT_EQ(pages.at("b"), 2);
  EXPECT_TRUE(destination_pages("%PDF-1.7 compressed").empty());
  EXPECT_TRUE(destination_pages("/Type /Catalog /Pages 1 0 R /Dests 5 0 R").empty());
}

}  // namespace
}  // namespace lobewise::handover
