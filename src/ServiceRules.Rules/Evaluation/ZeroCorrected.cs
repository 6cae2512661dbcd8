using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation;

/// <summary>What was read at a place and what is judged of it, where a zero check's error was taken out.</summary>
/// <param name="Gauges">The gauges whose zero checks state an error.</param>
/// <param name="ByTwoChecks">Whether any of them was checked before the job and after it.</param>
/// <param name="AsRead">What was written down, of several readings the mean.</param>
/// <param name="Value">What is judged.</param>
public sealed record ZeroCorrected(
    ImmutableArray<Id<Instrument>> Gauges,
    bool ByTwoChecks,
    Length AsRead,
    Length Value
)
{
    /// <summary>By how much what was read was moved.</summary>
    public Length Correction => Value - AsRead;

    /// <summary>What readings at one place, one or more, were corrected by; null where none of their gauges states an error.</summary>
    /// <param name="read">Each gauge with the length that was written down.</param>
    /// <param name="value">What they come to.</param>
    internal static ZeroCorrected? Of(IReadOnlyList<(Instrument? Gauge, Length Read)> read, Length value)
    {
        var gauges = read.Select(each => each.Gauge)
            .OfType<Instrument>()
            .Where(gauge => StatedZero.ErrorOf(gauge) != Length.Zero)
            .DistinctBy(gauge => gauge.Id)
            .ToList();
        if (gauges.Count == 0)
        {
            return null;
        }

        var sum = read.Aggregate(Length.Zero, (all, each) => all + each.Read);
        var asRead =
            read.Count == 1 ? sum : Length.FromMillimetres(Math.Round(sum.Millimetres / read.Count, 7));
        return new(
            [.. gauges.Select(gauge => gauge.Id)],
            gauges.Exists(gauge => gauge.ZeroCheckAfter is not null),
            asRead,
            value
        );
    }

    /// <summary>What is said of places that were corrected alike.</summary>
    /// <param name="places">Each place as people say it, with what was read and what is judged there.</param>
    /// <param name="system">The units of the readings.</param>
    internal static string Words(
        IReadOnlyList<(string Said, ZeroCorrected Corrected)> places,
        UnitSystem system
    )
    {
        var one = places[0].Corrected;
        var gauge = one.Gauges.Length == 1 ? "gauge" : "gauges";
        var named = $"{gauge} {Wording.Listed([.. one.Gauges.Select(id => id.Text)])}";
        var check =
            one.ByTwoChecks ? "the mean of the zero checks"
            : one.Gauges.Length == 1 ? "the zero check"
            : "the zero checks";
        var sign = one.Correction > Length.Zero ? "+" : "";
        var read = Wording.Listed([
            .. places.Select(each => $"{each.Said} reads {Wording.Of(each.Corrected.AsRead, system)}"),
        ]);
        var values = Wording.Listed([.. places.Select(each => Wording.Of(each.Corrected.Value, system))]);
        return $"{read}, {Told} {sign}{Wording.Of(one.Correction, system)} of {check} of {named}: {values}";
    }

    private const string Told = "corrected by";

    /// <summary>Whether a notice of a finding tells of a correction.</summary>
    /// <param name="notice">The notice.</param>
    public static bool IsTold(string notice)
    {
        ArgumentNullException.ThrowIfNull(notice);
        return notice.Contains($", {Told} ", StringComparison.Ordinal)
            && notice.Contains(" of gauge", StringComparison.Ordinal);
    }
}
