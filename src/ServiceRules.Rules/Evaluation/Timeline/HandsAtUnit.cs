using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>Hands at a unit at a time that its bench log states: an adjuster turned, a feeler tried, a gauge set on it, a part fitted.</summary>
/// <param name="Unit">Which unit.</param>
/// <param name="Entry">The bench entry.</param>
/// <param name="At">Its time as entered.</param>
/// <param name="Moment">The moment that this is.</param>
/// <param name="Pointer">Where it stands in the record.</param>
/// <param name="What">What was done, after <c>the record shows</c>.</param>
internal sealed record HandsAtUnit(
    Id<UnitWork> Unit,
    BenchEntry Entry,
    RecordedTime At,
    Moment Moment,
    string Pointer,
    string What
)
{
    /// <summary>Whether it was read, and nothing turned or fitted.</summary>
    public bool IsReading => Entry is Reading;

    /// <summary>Every timed bench entry that takes hands at a unit; where nothing can be switched on, as on the bench, a reading takes none into danger.</summary>
    public static ImmutableArray<HandsAtUnit> Of(JobFrame frame)
    {
        var found = ImmutableArray.CreateBuilder<HandsAtUnit>();
        var units = frame.Record.Units;
        for (var unit = 0; unit < units.Length; unit++)
        {
            for (var index = 0; index < units[unit].Entries.Length; index++)
            {
                var entry = units[unit].Entries[index];
                if (entry.At is { } at && Done(entry, units[unit].Id, frame.HasIsolation) is { } what)
                {
                    var moment = JudgedOrder.MomentOf(at, frame.Context.Zone);
                    found.Add(new(units[unit].Id, entry, at, moment, Pointers.Entry(unit, index), what));
                }
            }
        }

        return found.ToImmutable();
    }

    /// <summary>
    /// Every bench entry without a time that takes hands at a unit and says whose: when they were in is not known, and that they were is.
    /// </summary>
    public static ImmutableArray<HandsWithoutTime> WithoutTime(JobFrame frame)
    {
        var found = ImmutableArray.CreateBuilder<HandsWithoutTime>();
        var units = frame.Record.Units;
        for (var unit = 0; unit < units.Length; unit++)
        {
            for (var index = 0; index < units[unit].Entries.Length; index++)
            {
                var entry = units[unit].Entries[index];
                if (
                    entry is { At: null, By: { } person }
                    && Done(entry, units[unit].Id, frame.HasIsolation) is { } what
                )
                {
                    found.Add(new(person, what, Pointers.Entry(unit, index)));
                }
            }
        }

        return found.ToImmutable();
    }

    /// <summary>Whether the hands-on work that the timeline shows of whoever did it has this time; both ends count, for times are often noted to the minute.</summary>
    public bool IsDuringWork(TimelineReading reading) =>
        reading.Works.Any(work =>
            (Entry.By is not { } by || work.Person == by) && WholeMinute.Has(reading, work, Moment)
        );

    /// <summary>What was done at a unit, after <c>the record shows</c>.</summary>
    public static string Words(BenchAct act, Id<UnitWork> unit) =>
        act switch
        {
            BenchAct.AdjusterTurned => $"an adjuster of {unit} turned",
            BenchAct.PartFitted => $"a part fitted on {unit}",
            BenchAct.FeelerTried => $"a feeler tried on {unit}",
            BenchAct.PaperTried => $"paper tried on {unit}",
            BenchAct.ContactFelt => $"the contact felt on {unit}",
            BenchAct.GaugeHeld => $"a gauge held to {unit}",
            BenchAct.PlayFelt => $"the bearings of {unit} felt for play",
            BenchAct.ReelLapped => $"the reel of {unit} lapped",
            _ => throw new ArgumentOutOfRangeException(
                nameof(act),
                act,
                "acts at a unit are a closed family"
            ),
        };

    private static string? Done(BenchEntry entry, Id<UnitWork> unit, bool hasIsolation) =>
        BenchActs.Of(entry) is { } act
        && act != BenchAct.ReelLapped
        && (hasIsolation || act == BenchAct.AdjusterTurned)
            ? Words(act, unit)
            : null;
}
