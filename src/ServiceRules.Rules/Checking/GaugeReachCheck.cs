using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>
/// Holds each limit on a quantity, or on a difference of its readings, against the gauges that the site owns for it: a limit
/// finer than any of them can prove ends every job unproven. In a difference calibration and zero drop out, so that the step
/// which a gauge shows is the least that is left. Quantities that no registered gauge measures (set by feeler, judged by
/// eye) are left alone.
/// </summary>
internal static class GaugeReachCheck
{
    public static void Run(RuleLibrary library, Remarks remarks)
    {
        foreach (var gauge in library.Instruments.Where(IsTooFine))
        {
            remarks.Notice(
                DiagnosticCode.StepTooFine,
                gauge,
                "/resolution",
                $"no gauge of its kind shows steps as fine as `{gauge.Value.Resolution}`: `{gauge.Value.Id}` is taken to show {GaugeStep.FinestOf(gauge.Value.Kind)}",
                $"the step that it shows, {GaugeStep.FinestOf(gauge.Value.Kind)} or more: look at the unit"
            );
        }

        foreach (var sheet in library.Sheets)
        {
            for (var index = 0; index < sheet.Value.Quantities.Length; index++)
            {
                var limit = sheet.Value.Quantities[index];
                var gauges = library
                    .Instruments.Select(placed => placed.Value)
                    .Where(gauge => gauge.Measures.Contains(limit.Quantity))
                    .ToList();
                if (gauges.Count > 0)
                {
                    Limits(sheet, limit, index, gauges, library, remarks);
                }
            }
        }
    }

    private static void Limits(
        Placed<LimitSheet> sheet,
        QuantityLimit limit,
        int index,
        List<RegisteredInstrument> gauges,
        RuleLibrary library,
        Remarks remarks
    )
    {
        var told = new HashSet<string>(StringComparer.Ordinal);
        foreach (
            var rule in library.Rules.Where(rule => RuleReachCheck.Reaches(rule.Value.When, sheet.Value))
        )
        {
            if (
                AskedBy(rule.Value.Check, limit, sheet.Value) is { } asked
                && !told.Contains(asked.What)
                && Finest(gauges, asked) is var finest
                && Unfit(asked, rule.Value.Decision, asked.Doubt(finest)) is { } fitness
            )
            {
                var system = asked.Zone.Governing;
                told.Add(asked.What);
                remarks.Notice(
                    DiagnosticCode.NoGaugeCanProve,
                    sheet,
                    FormattableString.Invariant($"/quantities/{index}"),
                    $"rule `{rule.Value.Id}` asks for {asked.What} that no registered gauge can prove: with the finest for it, `{finest.Id}`, it may be off by {UncertaintyPrint.Of(fitness.Expanded.Value, system)}",
                    $"a gauge with which it is off by no more than {UncertaintyPrint.AtMost(fitness.CoarsestExpanded!.Value, system)}, or a wider limit"
                );
            }
        }
    }

    private static bool IsTooFine(Placed<RegisteredInstrument> gauge) =>
        GaugeStep.IsTooFine(gauge.Value.Resolution, gauge.Value.Kind);

    private static RegisteredInstrument Finest(List<RegisteredInstrument> gauges, Asked asked) =>
        gauges.OrderBy(asked.Doubt).ThenBy(gauge => gauge.Id).First();

    private static Asked? AskedBy(Check check, QuantityLimit limit, LimitSheet sheet) =>
        check switch
        {
            Check.LimitOnQuantity of when of.Quantity == limit.Quantity && ZoneOf(of, limit) is { } zone =>
                new("a limit", zone, gauge => gauge.OfOneReading, NaturalBounds.Of(limit.Quantity)),
            Check.Spread of when of.Quantity == limit.Quantity => SpreadOf(of.Across, limit, sheet),
            Check.Parallelism of when of.Quantity == limit.Quantity && limit.Parallelism is { } most => new(
                "a limit on parallelism",
                PrintedZone.AtMost(most),
                gauge => OfDifference(gauge, limit, sheet, fit => fit.Range),
                Length.Zero
            ),
            Check.ReelForm { Of: ReelFormOf.Taper }
                when limit is { Quantity: MeasuredQuantity.ReelDiameter, Taper: { } most } => new(
                "a limit on taper",
                PrintedZone.Within(most),
                gauge => OfDifference(gauge, limit, sheet, fit => fit.Tilt),
                null
            ),
            _ => null,
        };

    private static Asked? SpreadOf(SpreadAcross across, QuantityLimit limit, LimitSheet sheet)
    {
        var (most, what, difference) = across switch
        {
            SpreadAcross.Sides => (limit.SideToSide, "a limit from side to side", fit => fit.Tilt),
            SpreadAcross.Units => (
                limit.AcrossUnits,
                "a limit across units",
                fit => KnownDifference.Between(fit.Offset, fit.Offset)
            ),
            _ => (
                limit.AdjacentEnds,
                "a limit where units meet",
                (Func<WidthFit, Knowledge>)(fit => KnownDifference.Between(fit.LeftEnd, fit.RightEnd))
            ),
        };
        return most is null
            ? null
            : new(
                what,
                PrintedZone.Within(most),
                gauge => OfDifference(gauge, limit, sheet, difference),
                null
            );
    }

    /// <summary>What a difference by the line through both gauging stations is worth where only the step shown stays in it.</summary>
    private static StandardUncertainty OfDifference(
        RegisteredInstrument gauge,
        QuantityLimit limit,
        LimitSheet sheet,
        Func<WidthFit, Knowledge> difference
    )
    {
        var width = StationPlaces.Width(sheet);
        var read = new MeasuredValue(Length.Zero, gauge.OfItsStep);
        var fit = WidthFit.Through(
            [
                new(limit.LeftStation?.Value ?? Length.Zero, read),
                new(limit.RightStation?.Value ?? width, read),
            ],
            width
        );
        return fit is not null && difference(fit) is MeasuredValue known
            ? known.Uncertainty
            : StandardUncertainty.Zero;
    }

    private static PrintedZone? ZoneOf(Check.LimitOnQuantity check, QuantityLimit limit) =>
        check.Against switch
        {
            LimitSource.Sheet => PrintedZone.Of(limit.Lower, limit.Upper, limit.Target?.Governing.Value),
            LimitSource.SettingOrder when limit.ToleranceAboutTarget is { } tolerance => PrintedZone.Within(
                tolerance
            ),
            _ => null,
        };

    private static GaugeFitness? Unfit(Asked asked, RuleDecision decision, StandardUncertainty doubt)
    {
        var zone = asked.Zone.In(asked.Zone.Governing);
        var fitness = GaugeFitness.Judge(
            zone.With(decision.LimitItself) ?? zone,
            new MeasuredValue(Length.Zero, doubt).Errors,
            decision.By,
            asked.Zone.Target,
            asked.Bound is { } natural && zone.Contains(natural) ? natural : null
        );
        return fitness.Outcome is GaugeFitnessOutcome.Unfit ? fitness : null;
    }

    /// <summary>One limit that a rule holds readings against.</summary>
    /// <param name="What">The limit in words.</param>
    /// <param name="Zone">What is permitted.</param>
    /// <param name="Doubt">The least standard uncertainty that a gauge leaves in what is held against it.</param>
    /// <param name="Bound">The value that it cannot pass, if there is one.</param>
    private sealed record Asked(
        string What,
        PrintedZone Zone,
        Func<RegisteredInstrument, StandardUncertainty> Doubt,
        Length? Bound
    );
}
