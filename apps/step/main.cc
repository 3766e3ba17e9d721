// lobewise_step PLAN OUT: bodies of a plan (JSON, millimetres) to a STEP file. The plan is made by
// apps/handover/step_plan.
// lobewise_step --read FILE: the solids of a STEP file as JSON, their volumes [mm3] and boxes [mm]; how tests read it
// back.

#include <APIHeaderSection_MakeHeader.hxx>
#include <BRepAlgoAPI_Cut.hxx>
#include <BRepAlgoAPI_Fuse.hxx>
#include <BRepBndLib.hxx>
#include <BRepCheck_Analyzer.hxx>
#include <BRepGProp.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <Bnd_Box.hxx>
#include <GProp_GProps.hxx>
#include <Interface_Static.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <Message_Printer.hxx>
#include <STEPControl_Reader.hxx>
#include <STEPControl_Writer.hxx>
#include <ShapeUpgrade_UnifySameDomain.hxx>
#include <Standard_Failure.hxx>
#include <TCollection_HAsciiString.hxx>
#include <TopExp_Explorer.hxx>
#include <exception>
#include <fstream>
#include <iostream>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string>

namespace {

using Json = nlohmann::json;

gp_Pnt point(const Json& p) { return {p.at(0).get<double>(), p.at(1).get<double>(), p.at(2).get<double>()}; }

TopoDS_Shape shape(const Json& json) {
  if (json.contains("box"))
    return BRepPrimAPI_MakeBox(point(json["box"].at("low")), point(json["box"].at("high"))).Shape();
  const Json& c = json.at("cylinder");
  const Json& d = c.at("direction");
  const gp_Ax2 axis(point(c.at("from")), gp_Dir(d.at(0).get<double>(), d.at(1).get<double>(), d.at(2).get<double>()));
  return BRepPrimAPI_MakeCylinder(axis, c.at("radius").get<double>(), c.at("length").get<double>()).Shape();
}

TopoDS_Shape part(const Json& json) {
  TopoDS_Shape body;
  for (const Json& more : json.at("add"))
    body = body.IsNull() ? shape(more) : BRepAlgoAPI_Fuse(body, shape(more)).Shape();
  for (const Json& less : json.at("cut")) body = BRepAlgoAPI_Cut(body, shape(less)).Shape();
  ShapeUpgrade_UnifySameDomain unify(body);
  unify.Build();
  body = unify.Shape();
  if (body.IsNull() || !BRepCheck_Analyzer(body).IsValid()) throw std::runtime_error("a body of the plan is not valid");
  return body;
}

/// Names in a STEP file are plain ASCII here; quotes and control directives cannot get in.
std::string plain(const std::string& text) {
  std::string out;
  for (char c : text) {
    const bool fine = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                      std::string_view(" .,:()_+-").find(c) != std::string_view::npos;
    out += fine ? c : '_';
  }
  return out.substr(0, 200);
}

Handle(TCollection_HAsciiString) string_of(const std::string& text) {
  return new TCollection_HAsciiString(plain(text).c_str());
}

int run(const std::string& plan_file, const std::string& out) {
  std::ifstream stream(plan_file, std::ios::binary);
  const Json plan = Json::parse(stream);
  Message::DefaultMessenger()->RemovePrinters(STANDARD_TYPE(Message_Printer));
  STEPControl_Writer writer;
  Interface_Static::SetCVal("write.step.schema", "AP214IS");
  Interface_Static::SetCVal("write.step.unit", "MM");
  for (const Json& json : plan.at("parts")) {
    Interface_Static::SetCVal("write.step.product.name", plain(json.at("name")).c_str());
    if (writer.Transfer(part(json), STEPControl_AsIs) != IFSelect_RetDone) throw std::runtime_error("not transferred");
  }
  APIHeaderSection_MakeHeader header(writer.Model());
  header.SetName(string_of(plan.at("name")));
  header.SetTimeStamp(string_of(plan.at("date").get<std::string>() + "T00:00:00"));
  header.SetAuthorValue(1, string_of(""));
  header.SetOrganizationValue(1, string_of(""));
  header.SetOriginatingSystem(string_of("Lobewise"));
  header.SetDescriptionValue(1, string_of("Outline for planning, not for manufacture"));
  return writer.Write(out.c_str()) == IFSelect_RetDone ? 0 : 1;
}

int read_back(const std::string& file) {
  Message::DefaultMessenger()->RemovePrinters(STANDARD_TYPE(Message_Printer));
  STEPControl_Reader reader;
  if (reader.ReadFile(file.c_str()) != IFSelect_RetDone) throw std::runtime_error("not read");
  reader.TransferRoots();
  Json solids = Json::array();
  for (TopExp_Explorer each(reader.OneShape(), TopAbs_SOLID); each.More(); each.Next()) {
    GProp_GProps mass;
    BRepGProp::VolumeProperties(each.Current(), mass);
    Bnd_Box box;
    BRepBndLib::AddOptimal(each.Current(), box, false, false);
    double a[3], b[3];
    box.Get(a[0], a[1], a[2], b[0], b[1], b[2]);
    solids.push_back({{"volume", mass.Mass()},
                      {"low", {a[0], a[1], a[2]}},
                      {"high", {b[0], b[1], b[2]}},
                      {"valid", BRepCheck_Analyzer(each.Current()).IsValid() == Standard_True}});
  }
  std::cout << solids.dump() << '\n';
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) {
    std::cerr << "usage: lobewise_step PLAN OUT | --read FILE\n";
    return 64;
  }
  try {
    return std::string_view(argv[1]) == "--read" ? read_back(argv[2]) : run(argv[1], argv[2]);
  } catch (const Standard_Failure& problem) {
    std::cerr << problem.GetMessageString() << '\n';
  } catch (const std::exception& problem) {
    std::cerr << problem.what() << '\n';
  }
  return 70;
}
