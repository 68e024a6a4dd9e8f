// The only file that knows Graphviz (libgvc 6, libcgraph 6, as Debian packages them in libgvc6 and libcgraph6). It is
// told numbers and no labels, so nothing an author wrote reaches its parser, and no font its measures.
#include "output/layout.h"
#include "output/run_apart.h"

#include <dlfcn.h>
#include <fmt/format.h>

#include <charconv>
#include <cstring>
#include <iterator>
#include <memory>
#include <string_view>

namespace curbstop::output {
namespace {

constexpr double points_per_inch = 72;

// Opaque: we hold pointers only, so the library's headers are not needed to build.
struct Graph;
struct Context;

/// The functions that are used, as the library's manual pages (gvc.3, cgraph.3) declare them.
struct Library {
    Context* (*context)() = nullptr;                                           // gvContext
    int (*free_context)(Context*) = nullptr;                                   // gvFreeContext
    int (*layout)(Context*, Graph*, const char*) = nullptr;                    // gvLayout
    int (*free_layout)(Context*, Graph*) = nullptr;                            // gvFreeLayout
    int (*render)(Context*, Graph*, const char*, char**, unsigned*) = nullptr; // gvRenderData
    void (*free_render)(char*) = nullptr;                                      // gvFreeRenderData
    Graph* (*read)(const char*) = nullptr;                                     // agmemread
    int (*close)(Graph*) = nullptr;                                            // agclose
    void* (*node)(Graph*, char*, int) = nullptr;                               // agnode
    void* (*edge)(Graph*, void*, void*, char*, int) = nullptr;                 // agedge
    void* (*subgraph)(Graph*, char*, int) = nullptr;                           // agsubg
    char* (*attribute)(void*, char*) = nullptr;                                // agget
    int (*error_level)(int) = nullptr;                                         // agseterr
};

template <class Function>
bool find(void* handle, const char* name, Function& function) {
    function = reinterpret_cast<Function>(dlsym(handle, name));
    return function != nullptr;
}

/// Loads the library once and never unloads it: it leaves handlers behind that must stay callable.
const Library* load(std::string& error) {
    void* cgraph = dlopen("libcgraph.so.6", RTLD_NOW | RTLD_GLOBAL);
    void* gvc = cgraph == nullptr ? nullptr : dlopen("libgvc.so.6", RTLD_NOW | RTLD_GLOBAL);
    if (gvc == nullptr) {
        const char* why = dlerror();
        error = fmt::format("drawing needs the Graphviz libraries (package libgvc6), which cannot be loaded: {}",
                            why == nullptr ? "unknown reason" : why);
        return nullptr;
    }
    static Library library;
    const bool all = find(gvc, "gvContext", library.context) && find(gvc, "gvFreeContext", library.free_context) &&
                     find(gvc, "gvLayout", library.layout) && find(gvc, "gvFreeLayout", library.free_layout) &&
                     find(gvc, "gvRenderData", library.render) && find(gvc, "gvFreeRenderData", library.free_render) &&
                     find(cgraph, "agmemread", library.read) && find(cgraph, "agclose", library.close) &&
                     find(cgraph, "agnode", library.node) && find(cgraph, "agedge", library.edge) &&
                     find(cgraph, "agsubg", library.subgraph) && find(cgraph, "agget", library.attribute) &&
                     find(cgraph, "agseterr", library.error_level);
    if (!all) {
        error = "the Graphviz libraries that are installed lack a function that drawing needs";
        return nullptr;
    }
    return &library;
}

std::string description(const LayoutGraph& graph, std::string_view splines) {
    std::string out = fmt::format("digraph g {{\n rankdir={}; splines={}; nodesep={:.3f}; ranksep={:.3f}; start=1;\n"
                                  " node [shape=box, fixedsize=true, label=\"\"]; edge [dir=none];\n",
                                  graph.downwards ? "TB" : "LR", splines, graph.side_gap / points_per_inch,
                                  graph.rank_gap / points_per_inch);
    const auto vertex = [&](std::size_t i) {
        const LayoutGraph::Vertex& each = graph.vertices[i];
        const bool turned = each.bar && !graph.downwards;
        fmt::format_to(std::back_inserter(out), " n{} [width={:.4f}, height={:.4f}];\n", i,
                       (turned ? each.height : each.width) / points_per_inch,
                       (turned ? each.width : each.height) / points_per_inch);
    };
    for (std::size_t cluster = 0; cluster < graph.clusters; ++cluster) {
        fmt::format_to(std::back_inserter(out), " subgraph cluster_{} {{ margin={:.1f};\n", cluster,
                       graph.cluster_margin);
        for (std::size_t i = 0; i < graph.vertices.size(); ++i) {
            if (graph.vertices[i].cluster == cluster) {
                vertex(i);
            }
        }
        out += " }\n";
    }
    for (std::size_t i = 0; i < graph.vertices.size(); ++i) {
        if (!graph.vertices[i].cluster) {
            vertex(i);
        }
    }
    for (std::size_t i = 0; i < graph.edges.size(); ++i) {
        fmt::format_to(std::back_inserter(out), " n{} -> n{} [key=e{}];\n", graph.edges[i].first, graph.edges[i].second,
                       i);
    }
    return out + "}\n";
}

/// Reads the numbers of an attribute such as "12.5,3 40,7"; letters that mark arrow ends are passed over.
std::vector<double> numbers(std::string_view text) {
    std::vector<double> found;
    const char* at = text.data();
    const char* const end = at + text.size();
    while (at != end) {
        double number = 0;
        const auto [next, problem] = std::from_chars(at, end, number);
        if (problem == std::errc()) {
            found.push_back(number);
            at = next;
        } else {
            ++at;
        }
    }
    return found;
}

class Session {
  public:
    Session(const Library& library, const LayoutGraph& graph, std::string_view splines)
        : library_(&library) {
        constexpr int errors_only = 3; // AGMAX of cgraph.h: nothing is printed; failures show in what is returned
        library.error_level(errors_only);
        context_ = library.context();
        graph_ = library.read(description(graph, splines).c_str());
        laid_out_ = context_ != nullptr && graph_ != nullptr && library.layout(context_, graph_, "dot") == 0;
        if (laid_out_) {
            // Rendering as "dot" is what writes the places into the attributes; its text is not needed.
            char* text = nullptr;
            unsigned length = 0;
            rendered_ = library.render(context_, graph_, "dot", &text, &length) == 0;
            library.free_render(text);
        }
    }
    Session(const Session&) = delete;
    Session& operator=(const Session&) = delete;
    ~Session() {
        if (laid_out_) {
            library_->free_layout(context_, graph_);
        }
        if (graph_ != nullptr) {
            library_->close(graph_);
        }
        if (context_ != nullptr) {
            library_->free_context(context_);
        }
    }

    [[nodiscard]] bool done() const { return rendered_; }
    [[nodiscard]] void* node(std::size_t i) const {
        std::string name = fmt::format("n{}", i);
        return library_->node(graph_, name.data(), 0);
    }
    [[nodiscard]] std::vector<double> node_place(std::size_t i) const { return attribute(node(i), "pos"); }
    [[nodiscard]] std::vector<double> edge_points(std::size_t i, std::pair<std::size_t, std::size_t> ends) const {
        std::string name = fmt::format("e{}", i);
        void* from = node(ends.first);
        void* to = node(ends.second);
        return from == nullptr || to == nullptr ? std::vector<double>{}
                                                : attribute(library_->edge(graph_, from, to, name.data(), 0), "pos");
    }
    [[nodiscard]] std::vector<double> cluster_box(std::size_t i) const {
        std::string name = fmt::format("cluster_{}", i);
        return attribute(library_->subgraph(graph_, name.data(), 0), "bb");
    }
    [[nodiscard]] std::vector<double> whole_box() const { return attribute(graph_, "bb"); }

  private:
    [[nodiscard]] std::vector<double> attribute(void* object, const char* name) const {
        std::string key = name;
        const char* text = object == nullptr ? nullptr : library_->attribute(object, key.data());
        return text == nullptr ? std::vector<double>{} : numbers(text);
    }

    const Library* library_;
    Context* context_ = nullptr;
    Graph* graph_ = nullptr;
    bool laid_out_ = false;
    bool rendered_ = false;
};

std::optional<Layout> read_layout(const Session& session, const LayoutGraph& graph) {
    const std::vector<double> whole = session.whole_box();
    if (whole.size() != 4) {
        return std::nullopt;
    }
    Layout layout{whole[2] - whole[0], whole[3] - whole[1], {}, {}, {}};
    // Graphviz counts upwards from the lower left corner.
    const auto point = [&](double x, double y) { return Point{x - whole[0], whole[3] - y}; };
    for (std::size_t i = 0; i < graph.vertices.size(); ++i) {
        const std::vector<double> place = session.node_place(i);
        if (place.size() != 2) {
            return std::nullopt;
        }
        layout.vertices.push_back(point(place[0], place[1]));
    }
    for (std::size_t i = 0; i < graph.edges.size(); ++i) {
        const std::vector<double> places = session.edge_points(i, graph.edges[i]);
        if (places.size() < 8 || places.size() % 2 != 0 || (places.size() / 2) % 3 != 1) {
            return std::nullopt;
        }
        std::vector<Point> points;
        for (std::size_t at = 0; at < places.size(); at += 2) {
            points.push_back(point(places[at], places[at + 1]));
        }
        layout.edges.push_back(std::move(points));
    }
    for (std::size_t i = 0; i < graph.clusters; ++i) {
        const std::vector<double> box = session.cluster_box(i);
        layout.clusters.push_back(
            box.size() == 4 ? std::optional(Layout::Box{point(box[0], box[3]), point(box[2], box[1])}) : std::nullopt);
    }
    return layout;
}

// A layout as a row of numbers and back, for the way out of another process.
std::vector<double> flat(const Layout& layout) {
    std::vector<double> numbers{layout.width, layout.height};
    const auto put = [&numbers](const Point& point) { numbers.insert(numbers.end(), {point.x, point.y}); };
    for (const Point& vertex : layout.vertices) {
        put(vertex);
    }
    for (const std::vector<Point>& edge : layout.edges) {
        numbers.push_back(static_cast<double>(edge.size()));
        for (const Point& point : edge) {
            put(point);
        }
    }
    for (const std::optional<Layout::Box>& box : layout.clusters) {
        numbers.push_back(box ? 1 : 0);
        if (box) {
            put(box->least);
            put(box->most);
        }
    }
    return numbers;
}

Layout unfolded(const std::vector<double>& numbers, const LayoutGraph& graph) {
    auto at = numbers.begin();
    const auto next = [&at] { return *at++; };
    const auto point = [&next] {
        const double x = next();
        return Point{x, next()};
    };
    Layout layout;
    layout.width = next();
    layout.height = next();
    for (std::size_t i = 0; i < graph.vertices.size(); ++i) {
        layout.vertices.push_back(point());
    }
    for (std::size_t i = 0; i < graph.edges.size(); ++i) {
        std::vector<Point> points(static_cast<std::size_t>(next()));
        for (Point& each : points) {
            each = point();
        }
        layout.edges.push_back(std::move(points));
    }
    for (std::size_t i = 0; i < graph.clusters; ++i) {
        if (next() == 0) {
            layout.clusters.emplace_back();
        } else {
            const Point least = point();
            layout.clusters.push_back(Layout::Box{least, point()});
        }
    }
    return layout;
}

} // namespace

LayoutResult lay_out(const LayoutGraph& graph) {
    LayoutResult result;
    if (graph.vertices.empty()) {
        result.error = "there is nothing to draw: the system has no plumbing";
        return result;
    }
    const Library* library = load(result.error);
    if (library == nullptr) {
        return result;
    }
    // Lines at right angles read best, but the library's router of such lines is known to end the process by an
    // assertion (a "trapezoid table overflow", of some graphs with no more than twenty boxes). It hangs on where
    // exactly the boxes lie: with a little more room it mostly goes. Otherwise straight ones do.
    struct Attempt {
        std::string_view splines;
        double more_room;
    };
    for (const Attempt& attempt : {Attempt{"ortho", 0}, Attempt{"ortho", 3}, Attempt{"line", 0}}) {
        LayoutGraph roomy = graph;
        roomy.rank_gap += attempt.more_room;
        roomy.side_gap += attempt.more_room;
        const auto numbers = run_apart([&]() -> std::optional<std::vector<double>> {
            const Session session(*library, roomy, attempt.splines);
            const std::optional<Layout> layout = session.done() ? read_layout(session, roomy) : std::nullopt;
            return layout ? std::optional(flat(*layout)) : std::nullopt;
        });
        if (numbers) {
            result.layout = unfolded(*numbers, graph);
            break;
        }
    }
    if (!result.layout) {
        result.error = "the layout library could not lay this system out";
    }
    return result;
}

} // namespace curbstop::output
