#include "output/drawing_parting.h"

#include <algorithm>
#include <utility>

namespace curbstop::output {
namespace {

using Group = CardGroup;

class Parting {
  public:
    Parting(const DrawingGraph& graph, const std::function<bool(const Group&)>& fits)
        : graph_(&graph)
        , fits_(fits) {}

    // What hangs together, and where that is too large to be read, what hangs together but for one pipe.
    void part(const Group& group, std::vector<Group>& pieces) const {
        for (Group& piece : hanging_together(group, nullptr)) {
            const std::vector<Group> units = assemblies(piece);
            if (units.size() == 1 || fits_(piece)) {
                pieces.push_back(std::move(piece));
                continue;
            }
            for (const Group& half : halves(piece, units)) {
                part(half, pieces);
            }
        }
    }

  private:
    [[nodiscard]] std::vector<Group> hanging_together(const Group& group, const Line2d* without) const {
        std::vector<bool> inside(graph_->cards.size());
        for (const std::size_t card : group) {
            inside[card] = true;
        }
        std::vector<Group> pieces;
        for (const std::size_t start : group) {
            if (!inside[start]) {
                continue;
            }
            inside[start] = false;
            Group piece{start};
            for (std::size_t at = 0; at < piece.size(); ++at) {
                for (const Line2d& line : graph_->lines) {
                    for (const auto& [a, b] : {std::pair(line.from, line.to), std::pair(line.to, line.from)}) {
                        if (&line != without && a == piece[at] && inside[b]) {
                            inside[b] = false;
                            piece.push_back(b);
                        }
                    }
                }
            }
            pieces.push_back(std::move(piece));
        }
        return pieces;
    }
    // What an assembly is made of is told apart by nobody who sees only one half of it: it stays together.
    [[nodiscard]] std::vector<Group> assemblies(const Group& group) const {
        std::vector<std::size_t> unit_of(graph_->cards.size());
        for (const std::size_t card : group) {
            unit_of[card] = card;
        }
        const auto is_in = [&](std::size_t card) { return std::ranges::find(group, card) != group.end(); };
        for (const Line2d& line : graph_->lines) {
            if (line.stroke == Stroke::inside && is_in(line.from) && is_in(line.to)) {
                const std::size_t joined = unit_of[line.to];
                for (const std::size_t card : group) {
                    unit_of[card] = unit_of[card] == joined ? unit_of[line.from] : unit_of[card];
                }
            }
        }
        std::vector<Group> units;
        for (const std::size_t card : group) { // in the order of their first cards
            const auto known =
                std::ranges::find_if(units, [&](const Group& unit) { return unit_of[unit.front()] == unit_of[card]; });
            if (known != units.end()) {
                known->push_back(card);
            } else {
                units.push_back({card});
            }
        }
        return units;
    }
    // At the pipe that leaves the smaller piece largest; where no pipe alone parts it, half way through.
    [[nodiscard]] std::vector<Group> halves(const Group& group, const std::vector<Group>& units) const {
        std::vector<Group> best;
        std::size_t smaller = 0;
        for (const Line2d& line : graph_->lines) {
            if (line.stroke == Stroke::inside || std::ranges::find(group, line.from) == group.end() ||
                std::ranges::find(group, line.to) == group.end()) {
                continue;
            }
            std::vector<Group> pieces = hanging_together(group, &line);
            if (pieces.size() == 2 && std::min(pieces[0].size(), pieces[1].size()) > smaller) {
                smaller = std::min(pieces[0].size(), pieces[1].size());
                best = std::move(pieces);
            }
        }
        // A few cards cut off at a time would take long and part the drawing into crumbs.
        if (smaller * 6 >= group.size()) {
            return best;
        }
        std::vector<Group> parted(2);
        for (std::size_t i = 0; i < units.size(); ++i) {
            const bool first = i == 0 || (i + 1 < units.size() && parted[0].size() < group.size() / 2);
            Group& half = parted[first && parted[1].empty() ? 0 : 1];
            half.insert(half.end(), units[i].begin(), units[i].end());
        }
        return parted;
    }

    const DrawingGraph* graph_;
    const std::function<bool(const Group&)>& fits_;
};

bool only_joints(const DrawingGraph& graph, const CardGroup& group) {
    return std::ranges::all_of(group, [&graph](std::size_t card) { return graph.cards[card].symbol == Symbol::tee; });
}

std::size_t pipes_between(const DrawingGraph& graph, const CardGroup& a, const CardGroup& b) {
    const auto is_in = [](std::size_t card, const CardGroup& group) {
        return std::ranges::find(group, card) != group.end();
    };
    return static_cast<std::size_t>(std::ranges::count_if(graph.lines, [&](const Line2d& line) {
        return (is_in(line.from, a) && is_in(line.to, b)) || (is_in(line.from, b) && is_in(line.to, a));
    }));
}

} // namespace

std::vector<CardGroup> parted(const DrawingGraph& graph, const CardGroup& group,
                              const std::function<bool(const CardGroup&)>& fits) {
    std::vector<CardGroup> pieces;
    Parting(graph, fits).part(group, pieces);
    return pieces;
}

std::vector<CardGroup> joints_joined(const DrawingGraph& graph, std::vector<CardGroup> pieces,
                                     const std::function<bool(const CardGroup&)>& fits) {
    for (std::size_t i = 0; pieces.size() > 1 && i < pieces.size();) {
        if (!only_joints(graph, pieces[i])) {
            ++i;
            continue;
        }
        const CardGroup joints = std::move(pieces[i]);
        pieces.erase(pieces.begin() + static_cast<std::ptrdiff_t>(i));
        CardGroup& nearest = *std::ranges::max_element(pieces, {}, [&](CardGroup other) {
            const std::size_t pipes = pipes_between(graph, joints, other);
            other.insert(other.end(), joints.begin(), joints.end());
            return std::pair(pipes > 0 && fits(other), pipes);
        });
        nearest.insert(nearest.end(), joints.begin(), joints.end());
        i = 0;
    }
    return pieces;
}

} // namespace curbstop::output
