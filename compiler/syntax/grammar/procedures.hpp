// Procedures, their stages and steps, fragments, seasons, and the file that holds them all.
#pragma once

#include "syntax/grammar/materials.hpp"
#include "syntax/grammar/statements.hpp"
#include "syntax/grammar/systems.hpp"

namespace curbstop::syntax::grammar {

struct step : node<K::step_, tok<T::step_>, opt<name>, need<"the title of the step", label, "step \"Open the tap\"">,
                   opt<braces<Place::step, statement>>> {};

struct meanwhile : node<K::meanwhile_, tok<T::meanwhile_>,
                        need<"`drain` or `flow` after `meanwhile`", choice<drain, flow>>, need_block<Place::stage>> {};

struct stage_item
    : choice<step, requires_, ensures, for_each<Place::stage>, only_block<Place::stage>, without_block<Place::stage>,
             in_case<Place::stage>, repeat<Place::stage>, meanwhile, do_fragment> {};
struct stage : node<K::stage_, tok<T::stage_>, opt<label>,
                    need<"`{` and the steps of the stage", braces<Place::stage, stage_item>,
                         "stage \"Drain\" { step \"Open the tap\" }">> {};

struct procedure_item : choice<stage, requires_, ensures> {};
struct procedure
    : documented<K::procedure_, T::procedure_, need_name<"the name of the procedure">, opt<label>, opt<on_system>,
                 need<"`{` and the stages of the procedure", braces<Place::procedure, procedure_item>,
                      "procedure shut_down \"Shut-down\" on cottage { }">> {};

struct parameters
    : node<K::names_, tok<T::open_parenthesis>, opt<name, star<comma, need<"another name after the comma", name>>>,
           need<"`)` after the parameters", tok<T::close_parenthesis>, "fragment rinse(tap) { }">> {};
struct fragment_steps : node<K::fragment_steps_, tok<T::steps_>> {};
struct fragment : documented<K::fragment_, T::fragment_, need_name<"the name of the fragment">,
                             need<"`(` and the parameters", parameters, "fragment rinse(tap) { }">,
                             choice<chain<fragment_steps, need<"`{` and the steps", braces<Place::stage, stage_item>>>,
                                    need<"`{` and the statements, or `steps` and steps", braces<Place::step, statement>,
                                         "fragment rinse(tap) { }">>> {};

struct season
    : node<K::season_, tok<T::season_>, opt<label>, opt<on_system>,
           need<"`{` and the two procedures",
                braces<
                    Place::season, ensures,
                    need_name<"the procedure that comes first",
                              "season \"Winter\" on cottage { shut_down then open_up }">,
                    need<"`then` and the procedure that follows", tok<T::then_>,
                         "season \"Winter\" on cottage { shut_down then open_up }">,
                    need_name<"the procedure that follows", "season \"Winter\" on cottage { shut_down then open_up }">>,
                "season \"Winter\" on cottage { shut_down then open_up }">> {};

struct use : node<K::use_, tok<T::use_>, need_name<"the name of a module", "use water">> {};

struct file_language
    : node<K::language_, tok<T::language_>,
           need<"the language of the texts in this file: `en`, `fr`, `de` or `es`", language_code, "language de">> {};

struct declaration : choice<use, file_language, fluid, pipe, group, kind, system, lineup, procedure, fragment, season> {
};
/// A `}` that closes nothing; what follows it is read all the same.
struct stray_brace {
    using rule_t = stray_brace;
    using subs_t = pegtl::type_list<tok<T::close_brace>>;

    template <pegtl::apply_mode A, pegtl::rewind_mode M, template <typename...> class Action,
              template <typename...> class Control, typename Input>
    static bool match(Input& in, Parser& parser) {
        if (peek(in) != T::close_brace) {
            return false;
        }
        parser.report_stray_brace(index_of(in));
        in.bump(1);
        return true;
    }
};

struct file
    : node<K::file_, items<Place::file, declaration>, pegtl::star<stray_brace, items<Place::file, declaration>>> {};

} // namespace curbstop::syntax::grammar
