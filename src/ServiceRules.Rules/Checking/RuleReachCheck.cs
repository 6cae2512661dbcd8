using ServiceRules.Domain.Records;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>
/// What a rule names is there, and each sheet that it applies to states what its check needs: otherwise the rule would
/// be silent on that kind of unit, and nobody would know.
/// </summary>
internal static class RuleReachCheck
{
    public static void Run(RuleLibrary library, Remarks remarks)
    {
        var areas = library
            .Orders.SelectMany(order => order.Value.Targets)
            .Select(target => target.Area)
            .ToHashSet(StringComparer.Ordinal);
        var sheets = library.Sheets.Select(sheet => sheet.Value.Id.Text).ToHashSet(StringComparer.Ordinal);
        var rightSheet = KnownNames.Of(sheets, "a limit sheet of this folder");
        var rightArea = KnownNames.Of(areas, "an area of a setting order");
        foreach (var rule in library.Rules)
        {
            KnownSheets(rule, sheets, rightSheet, remarks);
            KnownAreas(rule, areas, rightArea, library, remarks);
            if (!library.Sheets.IsEmpty)
            {
                Stated(rule, library, remarks);
            }

            if (rule.Value.When is { Place: WorkPlace.OnMachine, Isolation: false })
            {
                remarks.Error(
                    DiagnosticCode.NeverApplies,
                    rule,
                    "/when/isolation",
                    "on the machine there is always something to switch off, and this rule asks for a job there without",
                    "`place` or `isolation`, not both, or `on-bench`"
                );
            }
        }
    }

    private static void KnownSheets(Placed<Rule> rule, HashSet<string> sheets, string right, Remarks remarks)
    {
        for (var index = 0; index < rule.Value.When.Sheets.Length; index++)
        {
            var named = rule.Value.When.Sheets[index];
            if (!sheets.Contains(named))
            {
                remarks.Error(
                    DiagnosticCode.UnknownSheet,
                    rule,
                    FormattableString.Invariant($"/when/sheets/{index}"),
                    $"there is no limit sheet `{named}`",
                    right
                );
            }
        }
    }

    private static void KnownAreas(
        Placed<Rule> rule,
        HashSet<string> areas,
        string right,
        RuleLibrary library,
        Remarks remarks
    )
    {
        for (var index = 0; index < rule.Value.When.Areas.Length && !library.Orders.IsEmpty; index++)
        {
            var named = rule.Value.When.Areas[index];
            if (!areas.Contains(named))
            {
                remarks.Error(
                    DiagnosticCode.UnknownArea,
                    rule,
                    FormattableString.Invariant($"/when/areas/{index}"),
                    $"no setting order has the area `{named}`",
                    right
                );
            }
        }
    }

    private static void Stated(Placed<Rule> rule, RuleLibrary library, Remarks remarks)
    {
        var reached = library.Sheets.Where(sheet => Reaches(rule.Value.When, sheet.Value)).ToList();
        if (reached.Count == 0)
        {
            remarks.Error(
                DiagnosticCode.NeverApplies,
                rule,
                "/when",
                "no limit sheet of this folder is of the kind that this rule asks for: it never applies",
                "a condition that a sheet meets, or no rule"
            );
        }

        foreach (var sheet in reached)
        {
            foreach (var (member, isStated) in Needs(rule.Value.Check, sheet.Value))
            {
                if (!isStated)
                {
                    var code = member.Contains("Station", StringComparison.Ordinal)
                        ? DiagnosticCode.NoStations
                        : DiagnosticCode.SheetSaysNothing;
                    remarks.Error(
                        code,
                        rule,
                        "/check",
                        $"the rule applies to limit sheet `{sheet.Value.Id}`, which does not state {member}",
                        $"{member} in {sheet.File}, or a `when` that leaves this sheet out"
                    );
                }
            }
        }
    }

    /// <summary>Whether a rule can come to apply to units of a sheet.</summary>
    public static bool Reaches(Applicability when, LimitSheet sheet) =>
        (when.Sheets.IsEmpty || when.Sheets.Contains(sheet.Id.Text))
        && (when.Bedknife is not { } mounting || mounting == sheet.Bedknife)
        && (when.SheetStates is not { } quantity || sheet.Of(quantity) is not null)
        && (
            when.School is not { } school
            || sheet.Of(MeasuredQuantity.Clearance) is not { } clearance
            || clearance.Schools.Any(taught => taught.School == school)
        )
        && (when.AnyTurned.IsEmpty || when.AnyTurned.Any(kind => sheet.Of(kind) is not null));

    private static IEnumerable<(string Member, bool IsStated)> Needs(Check check, LimitSheet sheet) =>
        check switch
        {
            Check.LimitOnQuantity limit => LimitNeeds(limit, sheet.Of(limit.Quantity)),
            Check.ProceduralLimit limit =>
            [
                (Of(limit.Quantity, "schools"), sheet.Of(limit.Quantity) is { Schools.IsEmpty: false }),
            ],
            Check.Contact contact =>
            [
                (Of(contact.Quantity, "schools"), sheet.Of(contact.Quantity) is { Schools.IsEmpty: false }),
            ],
            Check.Spread { Across: SpreadAcross.Sides } spread =>
            [
                (Of(spread.Quantity, "sideToSide"), sheet.Of(spread.Quantity)?.SideToSide is not null),
                Stations(spread.Quantity, sheet),
            ],
            Check.Spread { Across: SpreadAcross.Units } spread =>
            [
                (Of(spread.Quantity, "acrossUnits"), sheet.Of(spread.Quantity)?.AcrossUnits is not null),
            ],
            Check.Spread spread =>
            [
                (Of(spread.Quantity, "adjacentEnds"), sheet.Of(spread.Quantity)?.AdjacentEnds is not null),
                Stations(spread.Quantity, sheet),
            ],
            Check.Parallelism parallel =>
            [
                (Of(parallel.Quantity, "parallelism"), sheet.Of(parallel.Quantity)?.Parallelism is not null),
                Stations(parallel.Quantity, sheet),
            ],
            Check.ReelForm { Of: ReelFormOf.Taper } =>
            [
                (
                    Of(MeasuredQuantity.ReelDiameter, "taper"),
                    sheet.Of(MeasuredQuantity.ReelDiameter)?.Taper is not null
                ),
            ],
            Check.ReelForm =>
            [
                (
                    "`barrel` of `reel-diameter`, or `lower` and `upper` of `clearance`",
                    sheet.Of(MeasuredQuantity.ReelDiameter)?.Barrel is not null
                        || sheet.Of(MeasuredQuantity.Clearance) is { Lower: not null, Upper: not null }
                ),
            ],
            Check.Twist =>
            [
                (
                    Of(MeasuredQuantity.FrontRollerOnPlate, "twist"),
                    sheet.Of(MeasuredQuantity.FrontRollerOnPlate)?.Twist is not null
                ),
            ],
            Check.Presence { Places: RequiredPlaces.BothStations } presence =>
            [
                Stations(presence.Quantity, sheet),
            ],
            Check.StepObtained step =>
            [
                (
                    $"`step` or `thread` of the adjuster of `{FileWord.Of(step.Quantity)}`",
                    AdjustedQuantity.FinelySetBy(step.Quantity) is { } kind
                        && sheet.Of(kind) is { Step: not null } or { Thread: not null }
                ),
            ],
            Check.SoundCondition sound =>
            [
                (Of(sound.Quantity, "anything"), sheet.Of(sound.Quantity) is not null),
            ],
            _ => [],
        };

    private static IEnumerable<(string Member, bool IsStated)> LimitNeeds(
        Check.LimitOnQuantity check,
        QuantityLimit? stated
    )
    {
        yield return check.Against switch
        {
            LimitSource.Sheet => (
                Of(check.Quantity, "lower` or `upper"),
                stated is { Lower: not null } or { Upper: not null }
            ),
            LimitSource.SettingOrder => (
                Of(check.Quantity, "toleranceAboutTarget"),
                stated?.ToleranceAboutTarget is not null
            ),
            _ => (Of(check.Quantity, "wornBelow"), stated?.WornBelow is not null),
        };
        if (check.Where is CheckedPlaces.StationsAndEnds)
        {
            yield return (
                Of(check.Quantity, "leftStation` and `rightStation"),
                stated is { LeftStation: not null, RightStation: not null }
            );
        }
    }

    private static (string Member, bool IsStated) Stations(MeasuredQuantity quantity, LimitSheet sheet) =>
        (
            Of(quantity, "leftStation` and `rightStation"),
            sheet.Of(quantity) is { LeftStation: not null, RightStation: not null }
        );

    private static string Of(MeasuredQuantity quantity, string member) =>
        $"`{member}` of `{FileWord.Of(quantity)}`";
}
