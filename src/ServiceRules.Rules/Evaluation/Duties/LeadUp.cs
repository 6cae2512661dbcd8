using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// What leads up to the first hands-on work: every entry since the machine last ran, because running it undoes the steps
/// before. Without any work, on a job that goes on, everything since then; on a finished job, everything.
/// </summary>
/// <param name="Duty">The job.</param>
/// <param name="From">Where it begins; itself not part of it.</param>
/// <param name="Work">The work it leads up to; null: none is shown.</param>
internal sealed record LeadUp(DutyFrame Duty, TimelinePlace From, WorkInterval? Work)
{
    /// <summary>No hands have been in, and the job goes on: what is missing can still be done.</summary>
    public bool CanStillBeDone => Work is null && Duty.Reading.IsOpen;

    /// <summary>The sources that were there when hands went in.</summary>
    public ImmutableArray<EffectiveSource> Sources =>
        Work is { } work ? [.. Duty.SourcesAt(work.Start.Place())] : Duty.Sources;

    /// <summary>What leads up to the first work of a job.</summary>
    public static LeadUp ToFirstWork(DutyFrame duty)
    {
        var reading = duty.Reading;
        var work = reading.FirstWork;
        if (work is null && !reading.IsOpen)
        {
            return new(duty, TimelinePlace.Beginning, null);
        }

        var ran = reading.Energisings.LastOrDefault(entry =>
            work is null || entry.Place() < work.Start.Place()
        );
        return new(duty, ran?.Place() ?? TimelinePlace.Beginning, work);
    }

    /// <summary>Whether an entry is part of it.</summary>
    public bool Contains(OrderedEvent entry) =>
        entry.Place() > From && (Work is null || entry.Place() < Work.Start.Place());

    /// <summary>Its entries of these kinds.</summary>
    public IEnumerable<OrderedEvent> Of(params TimelineEventKind[] kinds) =>
        Duty.Reading.Of(kinds).Where(Contains);

    /// <summary>The first of some entries that stands after the work began, or null.</summary>
    public OrderedEvent? FirstAfter(IEnumerable<OrderedEvent> entries) =>
        Work is null ? null : entries.FirstOrDefault(entry => entry.Place() > Work.Start.Place());
}
