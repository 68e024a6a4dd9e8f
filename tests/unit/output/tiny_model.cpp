#include "output/tiny_model.h"

#include "meaning/quantity.h"

namespace curbstop::output::tests {

using namespace meaning;

namespace {

Quantity quantity(std::string_view number, Unit unit) {
    return *make_quantity(std::get<Rational>(parse_number(number)), unit);
}

/// Fills a model; `text` gives each label its hostile stand-in.
class TinyBuilder {
  public:
    explicit TinyBuilder(std::string label)
        : label_(std::move(label)) {}

    Tiny build();

  private:
    std::string text(std::string own) const { return label_.empty() ? own : label_; }
    Named named(std::string name, std::string own) const { return {std::move(name), text(std::move(own)), "", {}}; }

    VariableId variable(const Named& name, VariableKind kind, std::vector<Named> values, PartId part = {}) {
        Variable made{name};
        made.kind = kind;
        made.part = part;
        for (Named& value : values) {
            Value of{std::move(value)};
            made.values.push_back(of);
        }
        system().variables.push_back(std::move(made));
        return VariableId(system().variables.size() - 1);
    }
    PartId part(const Named& name, std::vector<WorkPlace> places, std::vector<Named> values) {
        Part made{name};
        made.kind_name = "kind";
        made.places = std::move(places);
        const PartId id(system().parts.size());
        system().parts.push_back(std::move(made));
        if (!values.empty()) {
            system().parts[id.value].variable = variable(name, VariableKind::position, std::move(values), id);
        }
        return id;
    }
    NodeId node(const Named& name, NodeKind kind, PartId part = {}) {
        Node made{name};
        made.kind = kind;
        made.part = part;
        system().nodes.push_back(std::move(made));
        const NodeId id(system().nodes.size() - 1);
        if (part) {
            system().parts[part.value].nodes.push_back(id);
        }
        return id;
    }
    void way(WayKind kind, NodeId from, NodeId to, PartId part) {
        Way made;
        made.kind = kind;
        made.from = from;
        made.to = to;
        made.part = part;
        system().ways.push_back(made);
    }
    VariableId of(PartId id) { return system().parts[id.value].variable; }
    System& system() { return tiny_.model.system; }

    void add_system();
    void add_procedure();
    void add_report();
    static Statement statement(auto what) { return Statement{std::move(what), {}, Expressions::always()}; }
    Statement set(VariableId variable, std::uint32_t value) { return statement(SetStatement{{{variable, value, {}}}}); }
    Step step(std::string title, Statements statements) { return {text(std::move(title)), std::move(statements), {}}; }

    std::string label_;
    Tiny tiny_;
    ZoneId pit_, room_;
    VariableId lid_;
    PartId stop_, drain_, tap_, shower_;
    NodeId ground_;
    ChamberId pan_;
    OptionId with_shower_;
    SourceId mains_;
    OutletId drain_out_, tap_out_;
};

void TinyBuilder::add_system() {
    static_cast<Named&>(system()) = named("larkfold", "Larkfold Hut");
    system().options.push_back({named("shower", "Shower")});
    with_shower_ = OptionId(0);
    Zone pit{named("pit", "Valve pit")};
    pit.height = quantity("-0.8", Unit::m);
    Zone room{named("room", "Room")};
    system().zones = {pit, room};
    pit_ = ZoneId(0), room_ = ZoneId(1);
    system().walks.push_back({pit_, room_, quantity("5", Unit::m)});
    Fluid water{named("drinking_water", "Drinking water")};
    Fluid antifreeze{named("antifreeze", "Antifreeze")};
    antifreeze.category = 3;
    antifreeze.shows = text("pink");
    antifreeze.strengths.push_back({quantity("30", Unit::percent), quantity("-13", Unit::degC), {}});
    system().fluids = {water, antifreeze};

    lid_ = variable(named("pit_lid", "Lid of the valve pit"), VariableKind::cover,
                    {named("shut", "shut"), named("open", "open")});
    Cover cover{named("pit_lid", "Lid of the valve pit")};
    cover.variable = lid_;
    cover.place = {pit_, {}};
    system().covers.push_back(cover);

    const std::vector<Named> two_ways{named("shut", "shut"), named("open", "open")};
    stop_ = part(named("stop_valve", "Stop valve"), {{pit_, {lid_}}}, two_ways);
    drain_ = part(named("pit_drain", "Drain cock"), {{pit_, {lid_}}}, two_ways);
    tap_ = part(named("kitchen_tap", "Kitchen tap"), {{room_, {}}}, two_ways);
    shower_ = part(named("shower_tap", "Shower tap"), {{room_, {}}}, two_ways);
    const ExpressionId with_shower = system().expressions.option(with_shower_);
    system().parts[shower_.value].exists = with_shower;
    system().variables[of(shower_).value].exists = with_shower;

    ground_ = node(named("ground", "the ground"), NodeKind::place);
    const NodeId house = node(named("stop_valve.house", "Stop valve (house)"), NodeKind::port, stop_);
    const NodeId line = node(named("pit_drain.line", "Drain cock"), NodeKind::port, drain_);
    const NodeId tap = node(named("kitchen_tap.water", "Kitchen tap"), NodeKind::port, tap_);
    const NodeId riser = node(named("riser", "riser"), NodeKind::tee);
    for (const NodeId to : {house, line, tap}) {
        Run run{riser, to, text("Copper 15 x 1 mm"), quantity("0.4", Unit::m), {}, {}, Expressions::always(), {}};
        system().runs.push_back(run);
    }
    way(WayKind::fall, line, ground_, drain_);
    way(WayKind::fall, tap, ground_, tap_);
    for (const auto& [id, way_index] : {std::pair(drain_, 0), std::pair(tap_, 1)}) {
        Outlet outlet{static_cast<const Named&>(system().parts[id.value])};
        outlet.part = id;
        outlet.ways = {WayId(static_cast<std::size_t>(way_index))};
        outlet.lands = ground_;
        system().parts[id.value].outlets.push_back(OutletId(system().outlets.size()));
        system().outlets.push_back(outlet);
    }
    drain_out_ = OutletId(0), tap_out_ = OutletId(1);
    Source mains{static_cast<const Named&>(system().parts[stop_.value])};
    mains.part = stop_;
    mains.node = house;
    mains.fluid = FluidId(0);
    mains.pressure = quantity("4", Unit::bar);
    system().sources.push_back(mains);
    mains_ = SourceId(0);

    Node pan_node{named("pan", "Pan")};
    pan_node.kind = NodeKind::vessel;
    pan_node.chamber = ChamberId(0);
    system().nodes.push_back(pan_node);
    const VariableId whereabouts = variable(named("pan", "Pan"), VariableKind::vessel,
                                            {named("away", "away"), named("under_pit_drain", "under Drain cock")});
    system().variables[whereabouts.value].values[1].partner = line;
    system().variables[whereabouts.value].at_start = 0;
    Chamber pan{named("pan", "Pan")};
    pan.node = NodeId(system().nodes.size() - 1);
    pan.vessel = true;
    pan.volume = quantity("4", Unit::L);
    pan.whereabouts = whereabouts;
    system().chambers.push_back(pan);
    pan_ = ChamberId(0);

    Hazard spray;
    spray.variable = of(drain_);
    spray.value = 1;
    spray.signal = Signal::warning;
    spray.text = text("Water under pressure sprays. Keep your face away.");
    system().hazards.push_back(spray);
    Lineup in_use{named("in_use", "In use")};
    in_use.entries = {{of(stop_), 2, {}}, {of(drain_), 1, {}}, {of(tap_), 1, {}}};
    system().lineups.push_back(in_use);
}

void TinyBuilder::add_procedure() {
    Expressions& expressions = system().expressions;
    Procedure procedure{named("close_up", "Close the hut for winter")};
    procedure.doc = text("What the last one out does.");
    procedure.branches = 1;
    procedure.requires_.push_back(
        {expressions.all_of(
             {expressions.stands(of(stop_), 2), expressions.stands(of(drain_), 1), expressions.stands(of(tap_), 1)}),
         "in_use",
         {}});
    Expression frost;
    frost.kind = ExpressionKind::frost_safe;
    frost.quantity = quantity("-20", Unit::degC);
    procedure.ensures.push_back({expressions.stands(of(stop_), 1), "stop_valve is shut", {}});
    procedure.ensures.push_back({expressions.add(frost), "frost_safe at -20 degC", {}});

    Observation stops{ObservationKind::stops, {}, {}, text("it only drips"), {}};
    Flow drain;
    drain.gravity = true;
    drain.pipes = true;
    drain.outlets = {drain_out_};
    drain.origin_labels = {text("the pipes")};
    drain.outlet_labels = {text("Drain cock")};
    drain.until = stops;
    Stage first{text("Shut the water off"), {}, {}, {}, {}};
    first.items.push_back({step("Lift the lid off", {statement(WearStatement{{text("gloves")}}), set(lid_, 1)}), {}});
    first.items.push_back({step("Shut the stop valve", {set(of(stop_), 0)}), {}});
    Stage second{text("Let the pipes run out"), {}, {}, {}, {}};
    second.items.push_back(
        {step("Open the drain cock",
              {statement(BringStatement{text("torch"), {}, {}}),
               statement(PlaceStatement{system().chambers[0].whereabouts, 1, pan_, NodeId(2)}), set(of(drain_), 1),
               statement(FlowStatement{drain}), statement(SignalStatement{Signal::caution, text("The cock is cold.")}),
               statement(NoteStatement{text("Leave it open all winter.")})}),
         {}});
    Statements shower{set(of(shower_), 1)};
    second.items.push_back(
        {step("Open the taps",
              {statement(SignalStatement{Signal::notice, text("Turn gently.")}), set(of(tap_), 1),
               statement(ConditionalStatement{expressions.option(with_shower_), "only with shower", shower}),
               statement(VerifyStatement{
                   expressions.all_of({expressions.stands(of(tap_), 2), expressions.stands(of(stop_), 1)}),
                   "taps",
                   {of(tap_), of(stop_)}}),
               statement(InCaseStatement{text("water keeps coming"), BranchId(0), {set(of(stop_), 0)}}),
               statement(WaitStatement{quantity("10", Unit::min)}),
               statement(RecordStatement{text("Water caught"), Dimension::volume})}),
         {}});
    procedure.stages = {first, second};
    tiny_.model.procedures.push_back(std::move(procedure));
}

void TinyBuilder::add_report() {
    proofs::ProcedureReport& report = tiny_.report;
    report.proved = true;
    report.instants = 9;
    report.configurations_log2 = 2;
    report.obligations = {{"open-path", 18}, {"guard", 4}};
    report.not_proved = {"frost_safe at -20 °C"};
    std::vector<ValueSet> standing{3, 2, 1, 1, 3, 1}; // lid, stop, drain, tap, shower, pan
    std::uint32_t number = 0;
    std::uint32_t stage_number = 0;
    for (const Stage& stage : tiny_.procedure().stages) {
        for (const StageItem& item : stage.items) {
            proofs::StepReport step;
            step.step = &std::get<Step>(item.what);
            step.number = ++number;
            step.stage = stage_number;
            step.running = {mains_};
            step.zones = {pit_};
            step.held_back.push_back({mains_, {{of(drain_), 1}, {of(tap_), 1}}});
            if (number == 1) {
                standing[lid_.value] = 2;
                step.pressurised = {NodeId(1), NodeId(4)};
            } else if (number == 2) {
                standing[of(stop_).value] = 1;
            } else if (number == 3) {
                standing[of(drain_).value] = 2;
                standing[5] = 2;
            } else {
                standing[of(tap_).value] = 2;
                standing[of(shower_).value] = 2;
                step.zones = {room_, pit_};
                step.helper = true;
            }
            if (number > 1) {
                step.held_back.front().barriers = {{of(stop_), 1}};
                step.running.clear();
                step.safe_to_stop = true;
            }
            step.may_hold = {pan_};
            step.fluids = {{FluidId(0)}};
            step.standing = standing;
            report.steps.push_back(std::move(step));
        }
        ++stage_number;
    }
}

Tiny TinyBuilder::build() {
    add_system();
    add_procedure();
    add_report();
    return std::move(tiny_);
}

} // namespace

Tiny tiny_model(const std::string& label) {
    Tiny tiny = TinyBuilder(label).build();
    tiny.report.procedure = &tiny.model.procedures.front();
    return tiny;
}

SheetInfo tiny_info() {
    return {"0.0.0", std::string(64, 'a'), {}};
}

std::vector<std::string> hostile_labels() {
    return {
        "<script>alert(1)</script>",
        "</style></title></textarea><img src=x onerror=alert(1)>",
        "\"quoted\" 'twice' `thrice` & <b>more</b>",
        "]]> --> <!-- <![CDATA[",
        "*bold* _under_ [link](javascript:alert(1)) ![img](x) <http://a.invalid> # | \\ ~~x~~",
        "| a | b |\n| - | - |\n\n# heading\n- item\n```\ncode",
        "1. one\n2) two",
        "\xD7\xA9\xD7\xA1\xD7\xAA\xD7\x95\xD7\x9D \xE2\x80\xAE\x67\x6E\x69\x72\x74\x73", // Hebrew, then an override
        "\xF0\x9F\x9A\xBF\xF0\x9F\x91\xA8\xE2\x80\x8D\xF0\x9F\x91\xA9\xE2\x80\x8D\xF0\x9F\x91\xA7", // emoji, joined
        std::string(500, 'W'),
        "   ",
        "{0} {} %s %n \\u0041 \\",
        "\\",
        "&amp;lt;&#0;",
        "\xEF\xBF\xBE\xEF\xBF\xBF", // non-characters
    };
}

} // namespace curbstop::output::tests
