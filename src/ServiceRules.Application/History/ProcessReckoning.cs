using System.Collections.Immutable;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Statistics;

namespace ServiceRules.Application.History;

/// <summary>Reckons the process as left: the limits and the gauge that were usual stand for all.</summary>
internal static class ProcessReckoning
{
    private const int Decimals = 6;

    public static ImmutableArray<ProcessOutlook> Of(IEnumerable<ValueLeft> values) =>
        [
            .. values
                .GroupBy(value => (value.Sheet, value.Quantity))
                .OrderBy(group => group.Key.Sheet, StringComparer.Ordinal)
                .ThenBy(group => group.Key.Quantity)
                .SelectMany(group => Aimed([.. group]).GroupBy(value => value.IsMiddled))
                .Select(alike => One([.. alike])),
        ];

    /// <summary>Where a target is set, what a kind of unit can do at all is no news.</summary>
    private static IEnumerable<ValueLeft> Aimed(List<ValueLeft> values) =>
        (values.Exists(value => value.IsAimed) ? values.Where(value => value.IsAimed) : values)
            // Both ends of one unit resemble each other; in turn they would look like a drift.
            .OrderBy(value => value.Place, StringComparer.Ordinal)
            .ThenBy(value => value.Day);

    private static ProcessOutlook One(ImmutableArray<ValueLeft> values)
    {
        var rules = values.Select(value => value.Rule).Distinct().Order(StringComparer.Ordinal);
        // Where several rules hold one reading against limits it was still read once.
        values =
        [
            .. values
                .GroupBy(value => (value.Record, value.Unit, value.Place))
                .Select(one => one.MinBy(value => value.Rule, StringComparer.Ordinal)!),
        ];
        var usual = values
            .GroupBy(value => (value.Lower, value.Upper))
            .OrderByDescending(group => group.Count())
            .First();
        var (lower, upper) = usual.Key;
        ImmutableArray<Length> read = [.. values.Select(value => value.Value)];
        // What is counted from the middle may fall on either side of it.
        var process = ProcessSpread.FromReadings(read, values[0].IsMiddled ? null : Length.Zero);
        var doubt = StandardUncertainty.From(Median.Of(usual.Select(value => value.Uncertainty.Value)));
        return new(
            [.. rules],
            values[0].Sheet,
            values[0].Quantity,
            values.Length,
            values[0].IsMiddled,
            Length.FromMillimetres(decimal.Round(read.Average(one => one.Millimetres), Decimals)),
            lower,
            upper,
            process,
            process is not null
            && ToleranceZone.TryCreate(lower, upper, out var limits)
            && ToleranceZone.TryCreate(
                Middle(usual.Select(value => value.AcceptLower)),
                Middle(usual.Select(value => value.AcceptUpper)),
                out var acceptance
            )
                ? GlobalRisk.Of(limits, acceptance, process, doubt)
                : null,
            usual.First().System
        );
    }

    private static Length? Middle(IEnumerable<Length?> lengths) =>
        lengths.OfType<Length>().ToList() is { Count: > 0 } known ? Median.Of(known) : null;
}
