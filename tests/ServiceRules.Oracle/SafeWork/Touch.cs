using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>Hands at a unit, by a line of its bench log that says when and whose.</summary>
/// <param name="By">Whose.</param>
/// <param name="At">When.</param>
/// <param name="After">The last step of the timeline that was there by then; -1 before the first.</param>
/// <param name="Entry">The line.</param>
/// <param name="IsDisordered">Whether the times of that log contradict the order of its lines.</param>
internal sealed record Touch(string By, Moment At, int After, BenchEntry Entry, bool IsDisordered)
{
    /// <summary>Where nothing can be switched on, only what is turned takes hands.</summary>
    public static IEnumerable<Touch> Of(Story story) =>
        from unit in story.Record.Units
        let isDisordered = IsDisorderedLog(unit, story)
        from entry in unit.Entries
        where entry.By is not null && TakesHands(entry)
        where entry is Adjustment || story.Place == WorkPlace.OnMachine || story.Isolatable.Any()
        let at = entry.At is { } noted ? Story.MomentOf(noted, story.Context) : null
        where at is not null
        let place = story.Steps.LastOrDefault(s => s.At <= at.Value)?.Place ?? -1
        select new Touch(entry.By!.Value.Text, at.Value, place, entry, isDisordered);

    /// <summary>Whose hands lines without a time tell of.</summary>
    public static IEnumerable<string> Untimed(Story story) =>
        from unit in story.Record.Units
        from entry in unit.Entries
        where entry is { At: null, By: not null } && TakesHands(entry)
        where entry is Adjustment || story.Place == WorkPlace.OnMachine || story.Isolatable.Any()
        select entry.By!.Value.Text;

    /// <summary>Everybody whose hands the log tells of.</summary>
    public static IEnumerable<string> Who(Story story) =>
        story.Touches.Select(touch => touch.By).Concat(Untimed(story));

    /// <summary>Within somebody's work, its ends included.</summary>
    public bool IsIn(Spell spell) => spell.Start.At <= At && (spell.Stop is not { } stop || At <= stop.At);

    /// <summary>After an end of work that names no seconds, in that minute: perhaps within, whoever noted seconds elsewhere.</summary>
    public static bool IsPerhapsIn(Moment at, Spell spell) =>
        spell.Stop is { } stop
        && stop.At.Utc.Ticks % TimeSpan.TicksPerMinute == 0
        && stop.At < at
        && at - stop.At < TimeSpan.FromMinutes(1);

    private static bool IsDisorderedLog(UnitWork unit, Story story)
    {
        var times = unit
            .Entries.Select(entry => entry.At is { } at ? Story.MomentOf(at, story.Context) : null)
            .OfType<Moment>()
            .ToList();
        return times.Zip(times.Skip(1)).Any(pair => pair.Second < pair.First);
    }

    /// <summary>What is only looked at takes none, and metal is ground at a grinder.</summary>
    public static bool TakesHands(BenchEntry entry) =>
        entry switch
        {
            Adjustment or PartFitted => true,
            Reading { Quantity: MeasuredQuantity.BearingPlay } => true,
            Reading { Observed: Observation.Seen } => false,
            Reading => true,
            _ => false,
        };
}
