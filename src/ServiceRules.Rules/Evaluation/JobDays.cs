using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// The days that a record speaks of by the wall clock of its site: the one it is dated, and the first and last on which
/// anything in its timeline or bench log has a time.
/// </summary>
public sealed record JobDays
{
    private JobDays(DateOnly dated, DateOnly? first, DateOnly? last)
    {
        Dated = dated;
        First = first;
        Last = last;
    }

    /// <summary>The record's date.</summary>
    public DateOnly Dated { get; }

    /// <summary>The first day that a time falls on; none when nothing has a time.</summary>
    public DateOnly? First { get; }

    /// <summary>The last day that a time falls on; none when nothing has a time.</summary>
    public DateOnly? Last { get; }

    /// <summary>The day on which the job began: the first by the times, else the date.</summary>
    public DateOnly Began => First ?? Dated;

    /// <summary>Whether the date is one of the days from the first to the last.</summary>
    public bool Agree => First <= Dated && Dated <= Last;

    /// <summary>The day until which something must have held: the later of the date and the last day.</summary>
    public DateOnly Latest => Last > Dated ? Last.Value : Dated;

    /// <summary>The day by which something must have begun: the last day by the times, else the date.</summary>
    public DateOnly Worked => Last ?? Dated;

    /// <summary>The days of a record.</summary>
    /// <param name="record">The record.</param>
    /// <param name="context">Its frozen context, for the wall clock.</param>
    public static JobDays Of(ServiceRecord record, AssessmentContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        return Of(record, context.Zone);
    }

    /// <summary>The days of a record.</summary>
    /// <param name="record">The record.</param>
    /// <param name="zone">The wall clock of its site.</param>
    public static JobDays Of(ServiceRecord record, SiteZone zone)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(zone);
        var days = record
            .Timeline.Select(entry => entry.At)
            .Concat(record.Units.SelectMany(unit => unit.Entries).Select(entry => entry.At))
            .OfType<RecordedTime>()
            .Select(zone.DayOf)
            .ToList();
        return days.Count == 0 ? new(record.Date, null, null) : new(record.Date, days.Min(), days.Max());
    }
}
