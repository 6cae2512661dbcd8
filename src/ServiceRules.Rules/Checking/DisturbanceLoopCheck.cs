using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>
/// The work on a unit has an end: no adjuster disturbs, directly or through others, what it itself sets. A loop would
/// make every reading void by the adjustment that the reading before it asked for.
/// </summary>
internal static class DisturbanceLoopCheck
{
    public static void Run(RuleLibrary library, Remarks remarks)
    {
        foreach (var sheet in library.Sheets)
        {
            foreach (var (adjuster, index) in sheet.Value.Adjusters.Select((one, index) => (one, index)))
            {
                // A loop is told once, at the first of its adjusters in the order of the sheet.
                if (LoopFrom(adjuster.Kind, sheet.Value) is { } loop && IsFirstOf(loop, index, sheet.Value))
                {
                    remarks.Error(
                        DiagnosticCode.DisturbanceLoop,
                        sheet,
                        FormattableString.Invariant($"/adjusters/{index}/disturbs"),
                        $"what {string.Join(" disturbs, what ", loop.Select(Wording.Of))} disturbs comes back to {Wording.Of(loop[0])}: no order of work ends",
                        "an order of work: what is set later disturbs nothing that was set before it"
                    );
                }
            }
        }
    }

    private static ImmutableArray<AdjusterKind>? LoopFrom(AdjusterKind start, LimitSheet sheet)
    {
        var paths = new Queue<ImmutableArray<AdjusterKind>>();
        var seen = new HashSet<AdjusterKind>();
        paths.Enqueue([start]);
        while (paths.TryDequeue(out var path))
        {
            foreach (var next in Next(path[^1], sheet))
            {
                if (next == start)
                {
                    return path;
                }

                if (seen.Add(next))
                {
                    paths.Enqueue(path.Add(next));
                }
            }
        }

        return null;
    }

    private static IEnumerable<AdjusterKind> Next(AdjusterKind kind, LimitSheet sheet) =>
        sheet
            .Of(kind)
            ?.Disturbs.Select(disturbance => AdjustedQuantity.FinelySetBy(disturbance.Quantity))
            .OfType<AdjusterKind>()
        ?? [];

    private static bool IsFirstOf(ImmutableArray<AdjusterKind> loop, int index, LimitSheet sheet) =>
        sheet.Adjusters.Take(index).All(earlier => !loop.Contains(earlier.Kind));
}
