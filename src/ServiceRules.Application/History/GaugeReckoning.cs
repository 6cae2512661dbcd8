using System.Collections.Immutable;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Wear;

namespace ServiceRules.Application.History;

/// <summary>Is it the gauge or the unit?</summary>
internal static class GaugeReckoning
{
    // Pairs of checks grow with their square; a season has some hundred.
    private const int MostChecks = 500;
    private const int Decimals = 6;

    // Three readings give a band of 67 %, four one of 92 %: too little to send a gauge away for.
    private static readonly Probability Surely = Probability.Of(0.95m);

    public static ImmutableArray<GaugeOutlook> ZeroChecks(IEnumerable<GaugeSeen> checks) =>
        [
            .. checks
                .GroupBy(check => check.Gauge)
                .OrderBy(gauge => gauge.Key)
                .Select(gauge =>
                {
                    var inOrder = gauge
                        .OrderBy(check => check.Day)
                        .ThenBy(check => check.Record)
                        .TakeLast(MostChecks)
                        .ToList();
                    return new GaugeOutlook(
                        gauge.Key,
                        inOrder[^1].Kind,
                        inOrder.Count,
                        inOrder[0].Day,
                        inOrder[^1].Day,
                        [.. inOrder.Where(check => check.Error.Value.Abs > check.Step)],
                        Drift(inOrder),
                        inOrder[^1].Error.System
                    );
                }),
        ];

    public static ImmutableArray<GaugePairOutlook> Pairs(IEnumerable<TwoGauges> pairs) =>
        [
            .. pairs
                .GroupBy(pair => (pair.Quantity, pair.First, pair.Second))
                .OrderBy(group => group.Key)
                .Select(group =>
                {
                    var errors = group
                        .Select(pair =>
                            (Pair: pair, Error: NormalisedError.Of(pair.FirstValue, pair.SecondValue))
                        )
                        .ToList();
                    var apart = errors.Where(one => !one.Error.Agrees).ToList();
                    return new GaugePairOutlook(
                        group.Key.Quantity,
                        group.Key.First,
                        group.Key.Second,
                        errors.Count,
                        Length.FromMillimetres(
                            decimal.Round(
                                group.Average(pair =>
                                    (pair.FirstValue.Value - pair.SecondValue.Value).Millimetres
                                ),
                                Decimals
                            )
                        ),
                        errors.Max(one => one.Error.Value ?? 0m),
                        apart.Count,
                        [.. apart.Select(one => one.Pair.Unit).Distinct().Order()],
                        group.Max(pair => pair.Day),
                        group.Last().System
                    );
                }),
        ];

    /// <summary>
    /// A drift is told when the band of its slope covers 95 %, leaves zero out, and the zero moved by a step or more.
    /// </summary>
    private static ZeroDrift? Drift(List<GaugeSeen> checks)
    {
        var trend = DayTrend.Through(checks.Select(check => (check.Day, check.Error.Value)));
        return
            trend is { Moves: true }
            && trend.Level >= Surely
            && trend.Moved.Abs >= checks.Max(check => check.Step)
            ? new(trend.Moved, trend.Level)
            : null;
    }
}
