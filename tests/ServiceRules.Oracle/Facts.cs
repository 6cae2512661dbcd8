using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Oracle;

/// <summary>Everything that one record is judged by.</summary>
internal sealed record Facts(ServiceRecord Record, AssessmentContext Context, RuleBook Book)
{
    public bool IsOpen => Record.SignOff is null;

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
