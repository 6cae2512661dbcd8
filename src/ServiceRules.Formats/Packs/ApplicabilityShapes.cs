using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;
using ServiceRules.Rules.Model;

namespace ServiceRules.Formats.Packs;

/// <summary>When a rule applies.</summary>
internal static class ApplicabilityShapes
{
    public static ObjectShape<Applicability> When { get; } =
        Shape.Object<Applicability>(
            "applicability",
            "When a rule applies: every part present must hold.",
            o =>
            {
                var tasks = o.Items(
                    "tasks",
                    Choices.Task,
                    FormatLimits.Words,
                    "any of these tasks is done",
                    a => a.Tasks
                );
                var orRead = o.Items(
                    "orRead",
                    Choices.Quantity,
                    FormatLimits.Words,
                    "or, whatever the tasks, any of these was read on the unit and still holds: then what is proven out counts, and what is unproven is told and holds nothing",
                    a => a.OrRead
                );
                var sheets = o.Items(
                    "sheets",
                    Terms.Identity,
                    FormatLimits.Register,
                    "the unit is held to any of these limit sheets",
                    a => a.Sheets
                );
                var bedknife = o.Optional(
                    "bedknife",
                    Choices.Bedknife,
                    "the unit's bedknife is mounted so",
                    a => a.Bedknife
                );
                var attachments = o.Items(
                    "attachments",
                    Choices.Attachment,
                    FormatLimits.Words,
                    "all of these are fitted",
                    a => a.Attachments
                );
                var areas = o.Items(
                    "areas",
                    Terms.Identity,
                    FormatLimits.Register,
                    "the machine serves any of these areas",
                    a => a.Areas
                );
                var place = o.Optional("place", Choices.Place, "the work is done here", a => a.Place);
                var isolation = o.Optional(
                    "isolation",
                    Shape.Flag,
                    "whether there is something to switch off: on the machine always, on the bench where its procedure names an isolating device",
                    a => a.Isolation
                );
                var school = o.Optional(
                    "school",
                    Choices.School,
                    "the school in force for the unit",
                    a => a.School
                );
                var turned = o.Items(
                    "anyTurned",
                    Choices.Adjuster,
                    FormatLimits.Words,
                    "any of these was turned on the unit",
                    a => a.AnyTurned
                );
                var read = o.Items(
                    "anyRead",
                    Choices.Quantity,
                    FormatLimits.Words,
                    "any of these was read on the unit, in any way",
                    a => a.AnyRead
                );
                var along = o.Items(
                    "anyReadAlong",
                    Choices.Quantity,
                    FormatLimits.Words,
                    "any of these was read on the unit at two places or more along the width",
                    a => a.AnyReadAlong
                );
                var ground = o.Optional(
                    "ground",
                    Shape.Flag,
                    "whether metal was removed from the unit in this job",
                    a => a.Ground
                );
                var states = o.Optional(
                    "sheetStates",
                    Choices.Quantity,
                    "the unit's limit sheet says something of this quantity",
                    a => a.SheetStates
                );
                var from = o.Optional("from", Terms.Day, "first day in force", a => a.From);
                var until = o.Optional("until", Terms.Day, "last day in force", a => a.Until);
                o.Check(
                    v => v.Get(from) is not { } first || v.Get(until) is not { } last || first <= last,
                    until,
                    "the last day is before the first",
                    "`from` or later"
                );
                o.Check(
                    v => v.Get(orRead).IsEmpty || !v.Get(tasks).IsEmpty,
                    orRead,
                    "without `tasks` the rule applies at every task anyway",
                    "`tasks` beside it, or `anyRead`"
                );
                return v => new Applicability
                {
                    Tasks = v.Get(tasks),
                    OrRead = v.Get(orRead),
                    Sheets = v.Get(sheets),
                    Bedknife = v.Get(bedknife),
                    Attachments = v.Get(attachments),
                    Areas = v.Get(areas),
                    Place = v.Get(place),
                    Isolation = v.Get(isolation),
                    School = v.Get(school),
                    AnyTurned = v.Get(turned),
                    AnyRead = v.Get(read),
                    AnyReadAlong = v.Get(along),
                    Ground = v.Get(ground),
                    SheetStates = v.Get(states),
                    From = v.Get(from),
                    Until = v.Get(until),
                };
            }
        );
}
