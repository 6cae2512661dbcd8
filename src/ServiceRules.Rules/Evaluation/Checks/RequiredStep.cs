using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>A required step for one person (or for the job), with the sources for each of which it is required.</summary>
/// <param name="Check">The requirement.</param>
/// <param name="Person">By whom; null: by anybody.</param>
/// <param name="Sources">For which sources, each for itself; empty: once.</param>
internal sealed record RequiredStep(
    Check.RequiredEvent Check,
    Id<Participant>? Person,
    ImmutableArray<EnergySource> Sources
)
{
    /// <summary>A lock of each person's own on each source: a state that holds, not an entry that stands somewhere.</summary>
    public bool IsOwnControl =>
        Check.Per == RequiredPer.PersonAndSource
        && (
            Check.Events.Contains(TimelineEventKind.LockApplied)
            || Check.Events.Contains(TimelineEventKind.TagApplied)
        );

    /// <summary>Whether a unit supported stands for one lowered: on the machine a run may lift it off again, as it may lift that one.</summary>
    public bool IsSupportOnTheMachine(TimelineEventKind kind) =>
        kind == TimelineEventKind.UnitSupported && Check.Events.Contains(TimelineEventKind.UnitsLowered);

    /// <summary>What is required, for a sentence.</summary>
    public string Words =>
        (IsOwnControl ? $"{Person}'s own lock or control" : EventWords.AnyOf(Check.Events))
        + (Person is { } person && !IsOwnControl ? $" by {person}" : string.Empty);

    /// <summary>The steps that a requirement asks of a job.</summary>
    public static ImmutableArray<RequiredStep> Of(Check.RequiredEvent check, TimelineReading reading)
    {
        var sources = SourcesOf(check, reading);
        return check.Per switch
        {
            RequiredPer.Job => [new(check, null, [])],
            RequiredPer.Source => [new(check, null, sources)],
            RequiredPer.Person => [.. reading.HandsIn.Select(person => new RequiredStep(check, person, []))],
            _ => [.. reading.HandsIn.Select(person => new RequiredStep(check, person, sources))],
        };
    }

    /// <summary>The entries that would do for one source (or, with null, where no source is asked for).</summary>
    public IEnumerable<OrderedEvent> Entries(TimelineReading reading, EnergySource? source) =>
        reading.Events.Where(entry =>
            Check.Events.Contains(entry.Event.Kind)
            && entry.Event.Position != IsolatorPosition.On
            && (
                Person is not { } person || entry.Event.Actor == person || entry.Event.Others.Contains(person)
            )
            && (source is null || SourceReading.IsSwitchedBy(reading, source, entry.Event))
        );

    /// <summary>" for engine start and hydraulic", or nothing.</summary>
    public static string For(IReadOnlyCollection<EnergySource> sources) =>
        sources.Count == 0 ? string.Empty : $" for {TimelineWords.Named(sources)}";

    private static ImmutableArray<EnergySource> SourcesOf(Check.RequiredEvent check, TimelineReading reading)
    {
        var sources = reading.Frame.Procedure?.Sources ?? [];
        return check.Needs switch
        {
            _ when check.Per is RequiredPer.Job or RequiredPer.Person => [],
            MachineNeed.StoredSource => [.. sources.Where(source => source.Stored)],
            MachineNeed.IsolatedSource => [.. sources.Where(source => source.Isolator is not null)],
            _ when check.Per == RequiredPer.PersonAndSource =>
            [
                .. sources.Where(source => source.Isolator is not null),
            ],
            _ => sources,
        };
    }
}
