using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Oracle;

/// <summary>Everything that one record is judged by.</summary>
internal sealed record Facts(ServiceRecord Record, AssessmentContext Context, RuleBook Book)
{
    public bool IsOpen => Record.SignOff is null;

    /// <summary>The local days on which something in the record has a time.</summary>
    public IReadOnlyList<DateOnly> TimedDays =>
        [
            .. Record
                .Timeline.Select(e => e.At)
                .Concat(
                    Record.Units.SelectMany(u => u.Entries).Where(e => e.At is not null).Select(e => e.At!)
                )
                .Select(LocalDay)
                .Order(),
        ];

    /// <summary>What has run out must have held until then.</summary>
    public DateOnly LastDay => TimedDays.Append(Record.Date).Max();

    /// <summary>What is new must have been there by then.</summary>
    public DateOnly WorkedDay => TimedDays.Count == 0 ? Record.Date : TimedDays[^1];

    private DateOnly LocalDay(RecordedTime time)
    {
        if (time is not RecordedTime.Instant instant)
        {
            return DateOnly.ParseExact(time.Text[..10], "yyyy-MM-dd", null);
        }

        int ahead = Context.Zone.FirstOffsetMinutes;
        foreach (var moved in Context.Zone.Transitions)
        {
            if (moved.At <= instant.Moment)
            {
                ahead = moved.OffsetMinutes;
            }
        }

        return DateOnly.FromDateTime(instant.Moment.Utc.UtcDateTime.AddMinutes(ahead));
    }

    public IEnumerable<SettingOrder> Orders =>
        Context.SettingOrders.Where(o =>
            o.From <= Record.Date && (o.Until is not { } until || Record.Date <= until)
        );

    /// <summary>Whether two orders in force leave open which of them counts.</summary>
    public bool OrdersOverlap => Orders.Count() > 1;

    public IReadOnlyList<Participant> HandsIn =>
        [.. Record.People.Where(p => p.Role is JobRole.Performs or JobRole.Assists)];

    public ContactSchool? School(string sheet) =>
        Orders.SelectMany(o => o.Schools).FirstOrDefault(s => s.Sheet == sheet)?.School;

    public AreaTarget? Target(UnitWork unit, MeasuredQuantity quantity)
    {
        var fitting = Orders
            .SelectMany(o => o.Targets)
            .Where(t => t.Area == Record.Machine.Area && t.Quantity == quantity)
            .ToList();
        return fitting.FirstOrDefault(t => t.Sheet == unit.Sheet)
            ?? fitting.FirstOrDefault(t => t.Sheet is null);
    }

    /// <summary>Whether a job card's figure stands in the place of the order's.</summary>
    public bool CardCounts(RequestedSetting card, AreaTarget? ordered)
    {
        if (card.By is not { } by)
        {
            return false;
        }

        bool worked =
            HandsIn.Any(p => p.Id == by)
            || Record.Units.Any(u => u.Entries.Any(e => e.By == by))
            || Record.Timeline.Any(e =>
                e.Actor == by && (e.Kind is TimelineEventKind.WorkStarted or TimelineEventKind.ResumedWork)
            );
        var order = Orders.FirstOrDefault(o => ordered is not null && o.Targets.Contains(ordered));
        bool isKept =
            Context.SettingOrders.Length
                + Context.People.Length
                + Context.Procedures.Length
                + Context.Machines.Length
                + Context.Locks.Length
                > 0
            || Context.Instruments is not null;
        bool may = !isKept || order?.By == by || Context.People.Any(p => p.Id == by && p.MayRelease);
        bool isGone = Context.People.Any(p => p.Id == by && p.Left < Record.Date);
        return !worked && may && !isGone && card.Order == order?.Id;
    }

    public Procedure? Procedure =>
        Context.Procedures.FirstOrDefault(p =>
            p.Place == Record.Place && p.Machines.Contains(Record.Machine.Id)
        );

    public Instrument? Gauge(Reading reading) =>
        Record.Instruments.FirstOrDefault(i => i.Id == reading.Instrument);

    public Moment? MomentOf(RecordedTime time) =>
        time switch
        {
            RecordedTime.Instant instant => instant.Moment,
            RecordedTime.LocalTime local when Context.Zone.InstantOf(local) is ResolvedTime.Unique unique =>
                unique.Moment,
            _ => null,
        };

    /// <summary>The timeline by instant, then as entered; null when some time names no single instant.</summary>
    public IReadOnlyList<TimelineEvent>? Ordered()
    {
        if (Record.Timeline.Any(e => MomentOf(e.At) is null))
        {
            return null;
        }

        return [.. Record.Timeline.OrderBy(e => MomentOf(e.At)!.Value)];
    }
}
