using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Rules.Checking;

/// <summary>Waivers against the rules and against one another: what stops is never waived, and nothing is waived twice.</summary>
internal static class WaiversCheck
{
    public static void Run(RuleLibrary library, Remarks remarks)
    {
        var stops = library
            .Rules.Where(rule => rule.Value.Severity is Severity.Stop)
            .Select(rule => rule.Value.Id.Text)
            .ToHashSet(StringComparer.Ordinal);
        var known = new Dictionary<string, List<Waiver>>(StringComparer.Ordinal);
        foreach (var waiver in library.Waivers)
        {
            if (stops.Contains(waiver.Value.Rule))
            {
                remarks.Error(
                    DiagnosticCode.StopWaived,
                    waiver,
                    "/rule",
                    $"`{waiver.Value.Rule}` stops a job because someone could be hurt, and that is never waived",
                    "no such waiver; a rule that holds may be waived"
                );
            }

            if (!known.TryGetValue(waiver.Value.Rule, out var standing))
            {
                known[waiver.Value.Rule] = standing = [];
            }

            if (standing.Find(other => Overlap(other, waiver.Value)) is { } twice)
            {
                remarks.Error(
                    DiagnosticCode.WaivedTwice,
                    waiver,
                    "",
                    FormattableString.Invariant(
                        $"`{twice.Rule}` is waived on {twice.Unit ?? "every unit"} already, {twice.From:yyyy-MM-dd} to {twice.Until:yyyy-MM-dd}, by {twice.By}"
                    ),
                    "one of the two, or other days or another unit: a finding names one person and one reason"
                );
            }

            standing.Add(waiver.Value);
        }
    }

    private static bool Overlap(Waiver one, Waiver other) =>
        (one.Unit is null || other.Unit is null || one.Unit == other.Unit)
        && one.From <= other.Until
        && other.From <= one.Until;
}
