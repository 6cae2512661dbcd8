using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Remedies;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>Whether the steps of an adjuster are fine enough for the limits of what it sets.</summary>
internal static class StepFloorCheck
{
    private static readonly UnitSystem[] Systems = [UnitSystem.Metric, UnitSystem.Inch];

    public static void Run(Placed<LimitSheet> sheet, Remarks remarks)
    {
        foreach (var (limit, index) in sheet.Value.Quantities.Select((limit, index) => (limit, index)))
        {
            if (
                AdjustedQuantity.FinelySetBy(limit.Quantity) is not { } kind
                || sheet.Value.Of(kind)?.OneStep is not { } step
            )
            {
                continue;
            }

            var floor = StepFloor.Of(step);
            foreach (var (member, room, least) in Rooms(limit, floor))
            {
                if (room < least)
                {
                    remarks.Error(
                        DiagnosticCode.StepsTooCoarse,
                        sheet,
                        FormattableString.Invariant($"/quantities/{index}/{member}"),
                        $"one step of the {FileWord.Of(kind)} adjuster moves {Said(step, limit)}, coarser than the {Said(room, limit)} that `{member}` leaves",
                        $"{Said(least, limit)} or more, or a finer adjuster"
                    );
                }
            }
        }
    }

    /// <summary>What each limit leaves, by its narrower print, and the least that whole steps can be sure to hit.</summary>
    private static IEnumerable<(string Member, Length Room, Length Least)> Rooms(
        QuantityLimit limit,
        StepFloor floor
    )
    {
        var band = floor.EachSide * 2;
        if (limit is { Lower: { } lower, Upper: { } upper })
        {
            yield return ("upper", Systems.Min(system => upper.In(system) - lower.In(system)), band);
        }

        if (limit.ToleranceAboutTarget is { } tolerance)
        {
            yield return ("toleranceAboutTarget", Narrower(tolerance) * 2, band);
        }

        if (limit.SideToSide is { } sides)
        {
            yield return ("sideToSide", Narrower(sides), floor.OutOfParallel);
        }

        if (limit.Parallelism is { } parallel)
        {
            yield return ("parallelism", Narrower(parallel), floor.OutOfParallel);
        }
    }

    private static Length Narrower(DualPrint print) => Systems.Min(print.In);

    private static string Said(Length length, QuantityLimit limit) =>
        Evaluation.Wording.Of(
            length,
            (limit.Upper ?? limit.ToleranceAboutTarget ?? limit.SideToSide ?? limit.Parallelism)!
                .Governing
                .System
        );
}
