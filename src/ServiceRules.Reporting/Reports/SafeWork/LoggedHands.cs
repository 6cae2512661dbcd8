using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>Hands at a unit that only a time of the bench log tells, and that a finding holds against whose they were.</summary>
/// <param name="At">When, as entered.</param>
/// <param name="After">The event that they come after, by its number; nought: before every event.</param>
/// <param name="Letter">The finding.</param>
internal sealed record LoggedHands(RecordedTime At, int After, string Letter)
{
    private const int MostTold = 4;

    /// <summary>All of one person, in order; an entry that names nobody may be of anybody with hands in.</summary>
    /// <param name="view">The job.</param>
    /// <param name="person">Who.</param>
    /// <param name="covered">When that person was protected: what falls in it is told by the finding alone.</param>
    public static ImmutableArray<LoggedHands> Of(
        SafeWorkView view,
        Id<Participant> person,
        IntervalSet? covered
    ) =>
        [
            .. from one in view.Marked
            where HandsFinding.IsOfHands(one.Told)
            from entry in one.Told.Finding.Evidence.Select(view.BenchEntryOf).OfType<BenchEntry>()
            where entry.By is null || entry.By == person
            let moment = entry.At is { } at
                ? JudgedOrder.MomentOf(at, view.Job.Assessed.Context.Zone)
                : (Moment?)null
            where moment is not null && !IsCovered(covered, moment.Value)
            orderby moment
            select new LoggedHands(
                entry.At!,
                view.Frame.Events.Count(other => other.Moment <= moment.Value),
                one.Letter
            ),
        ];

    /// <summary>All of them in a few words.</summary>
    public static string Told(SafeWorkView view, ImmutableArray<LoggedHands> all)
    {
        var times = all.Select(one => view.When(one.At)).Distinct(StringComparer.Ordinal).ToList();
        var more = times.Count > MostTold ? $" and {times.Count - MostTold} more times" : "";
        var letters = string.Join(", ", all.Select(one => one.Letter).Distinct(StringComparer.Ordinal));
        return $"by the bench log hands at a unit at {string.Join(", ", times.Take(MostTold))}{more}, not shown as protected ({letters})";
    }

    // Times are often noted to the minute: before or after every event of it.
    private static bool IsCovered(IntervalSet? covered, Moment moment) =>
        covered is not null
        && (covered.Contains(new(moment, int.MinValue)) || covered.Contains(new(moment, int.MaxValue)));
}
