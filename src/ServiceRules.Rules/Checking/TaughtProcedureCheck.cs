using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>
/// Proves that the procedure a sheet teaches can end in met. One feeler passes and the next does not; that proves an
/// interval a little wider than the two feelers, and wider again at the ends of the width. The interval must lie
/// inside the limits, and one step of the adjuster must not jump from one feeler past the other.
/// </summary>
internal static class TaughtProcedureCheck
{
    // Feelers better than this are not in a shop's drawer: common practice, no source.
    private static readonly Length FeelerTolerance = Length.FromInches(0.0001m);

    public static void Run(RuleLibrary library, Remarks remarks)
    {
        var isJudgedAtEnds = library.Rules.Any(rule =>
            rule.Value.Check
                is Check.LimitOnQuantity
                {
                    Quantity: MeasuredQuantity.Clearance,
                    Where: CheckedPlaces.StationsAndEnds
                }
        );
        foreach (var sheet in library.Sheets)
        {
            foreach (var (limit, at) in sheet.Value.Quantities.Select((limit, at) => (limit, at)))
            {
                foreach (var (school, index) in limit.Schools.Select((school, index) => (school, index)))
                {
                    if (school is { School: ContactSchool.AirGap, Passes: { } passes, Stops: { } stops })
                    {
                        var pointer = FormattableString.Invariant($"/quantities/{at}/schools/{index}");
                        Interval(sheet, limit, passes, stops, pointer, isJudgedAtEnds, remarks);
                        Step(sheet, limit, passes, stops, pointer, remarks);
                    }
                }
            }
        }
    }

    private static void Interval(
        Placed<LimitSheet> sheet,
        QuantityLimit limit,
        DualPrint passes,
        DualPrint stops,
        string at,
        bool isJudgedAtEnds,
        Remarks remarks
    )
    {
        foreach (var system in SystemsOf(passes))
        {
            var least = passes.In(system) - FeelerTolerance;
            var most = stops.In(system) + FeelerTolerance;
            var beyond = isJudgedAtEnds ? Beyond(sheet.Value, limit, most - least, system) : Length.Zero;
            if (limit.Lower?.In(system) is { } lower && least - beyond < lower)
            {
                remarks.Error(
                    DiagnosticCode.ProcedureCannotEnd,
                    sheet,
                    at + "/passes",
                    $"a feeler of {passes} that passes proves no more than {Said(least - beyond, system)}, and the lower limit is {Said(lower, system)}",
                    "a lower limit further below the feeler that passes, or a thicker feeler"
                );
                return;
            }

            if (limit.Upper?.In(system) is { } upper && most + beyond > upper)
            {
                remarks.Error(
                    DiagnosticCode.ProcedureCannotEnd,
                    sheet,
                    at + "/stops",
                    $"a feeler of {stops} that does not pass proves no less than {Said(most + beyond, system)}, and the upper limit is {Said(upper, system)}",
                    "an upper limit further above the feeler that stops, or a thinner feeler"
                );
                return;
            }
        }
    }

    private static void Step(
        Placed<LimitSheet> sheet,
        QuantityLimit limit,
        DualPrint passes,
        DualPrint stops,
        string at,
        Remarks remarks
    )
    {
        if (passes.Governing.Value >= stops.Governing.Value)
        {
            remarks.Error(
                DiagnosticCode.ProcedureCannotEnd,
                sheet,
                at + "/stops",
                $"the feeler that must not pass ({stops}) is no thicker than the one that must ({passes})",
                "a thicker feeler"
            );
            return;
        }

        var step =
            limit.Quantity is MeasuredQuantity.Clearance
                ? sheet.Value.Of(AdjusterKind.Clearance)?.Step?.Governing.Value
                : null;
        if (step > stops.Governing.Value - passes.Governing.Value)
        {
            remarks.Error(
                DiagnosticCode.ProcedureCannotEnd,
                sheet,
                at + "/stops",
                $"one step opens {sheet.Value.Of(AdjusterKind.Clearance)!.Step}, more than lies between the feelers {passes} and {stops}: a step may jump past both",
                "feelers at least one step apart"
            );
        }
    }

    /// <summary>How much further the interval reaches at the end that lies furthest outside its station.</summary>
    private static Length Beyond(LimitSheet sheet, QuantityLimit limit, Length width, UnitSystem system)
    {
        if (limit is not { LeftStation.Value: { } left, RightStation.Value: { } right } || right <= left)
        {
            return Length.Zero;
        }

        var outside = Max(left, sheet.Width.In(system) - right);
        return width * (outside.Millimetres / (right - left).Millimetres);
    }

    private static Length Max(Length a, Length b) => a > b ? a : b;

    private static IEnumerable<UnitSystem> SystemsOf(DualPrint print) =>
        print.Alternate is { } other ? [print.Governing.System, other.System] : [print.Governing.System];

    private static string Said(Length length, UnitSystem system) => Evaluation.Wording.Of(length, system);
}
