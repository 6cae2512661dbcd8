using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>
/// Holds each limit on a quantity against the gauges that the site owns for it: a limit finer than any of them can prove ends
/// every job unproven. Quantities that no registered gauge measures (set by feeler, judged by eye) are left alone.
/// </summary>
internal static class GaugeReachCheck
{
    public static void Run(RuleLibrary library, Remarks remarks)
    {
        foreach (var sheet in library.Sheets)
        {
            for (var index = 0; index < sheet.Value.Quantities.Length; index++)
            {
                var limit = sheet.Value.Quantities[index];
                var gauges = library
                    .Instruments.Select(placed => placed.Value)
                    .Where(gauge => gauge.Measures.Contains(limit.Quantity))
                    .OrderBy(gauge => gauge.OfOneReading)
                    .ThenBy(gauge => gauge.Id)
                    .ToList();
                if (gauges.Count > 0)
                {
                    Limit(sheet, limit, index, gauges[0], library, remarks);
                }
            }
        }
    }

    private static void Limit(
        Placed<LimitSheet> sheet,
        QuantityLimit limit,
        int index,
        RegisteredInstrument finest,
        RuleLibrary library,
        Remarks remarks
    )
    {
        foreach (var rule in library.Rules)
        {
            if (
                rule.Value.Check is Check.LimitOnQuantity check
                && check.Quantity == limit.Quantity
                && RuleReachCheck.Reaches(rule.Value.When, sheet.Value)
                && ZoneOf(check, limit) is { } zone
                && Unfit(zone, limit, rule.Value.Decision, finest) is { } fitness
            )
            {
                var system = zone.Governing;
                remarks.Notice(
                    DiagnosticCode.NoGaugeCanProve,
                    sheet,
                    FormattableString.Invariant($"/quantities/{index}"),
                    $"rule `{rule.Value.Id}` asks for a limit that no registered gauge can prove: the finest for it, `{finest.Id}`, may be off by {Said(fitness.Expanded.Value, system)}",
                    $"a gauge that is off by no more than {Said(fitness.CoarsestExpanded!.Value, system)}, or a wider limit"
                );
                return;
            }
        }
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

    private static GaugeFitness? Unfit(
        PrintedZone printed,
        QuantityLimit limit,
        RuleDecision decision,
        RegisteredInstrument finest
    )
    {
        var zone = printed.In(printed.Governing);
        var bound = NaturalBounds.Of(limit.Quantity);
        var fitness = GaugeFitness.Judge(
            zone.With(decision.LimitItself) ?? zone,
            finest.OfOneReading,
            DegreesOfFreedom.Infinite,
            decision.By,
            printed.Target,
            bound is { } natural && zone.Contains(natural) ? natural : null
        );
        return fitness.Outcome is GaugeFitnessOutcome.Unfit ? fitness : null;
    }

    private static string Said(Length length, UnitSystem system) => Evaluation.Wording.Of(length, system);
}
