using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Reports.Drawings;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Evaluation;

namespace ServiceRules.Host.Pages.Filed;

/// <summary>
/// A timeline as lanes: one for each person, each source of energy of the procedures and each lock, and one row for each entry in the
/// order of time. Where the context of the assessment is not there, nothing tells the sources and the zone, and there are no lanes.
/// </summary>
public sealed record ShownLanes(IReadOnlyList<ShownLane> Lanes, IReadOnlyList<LaneRow> Rows)
{
    private static readonly LaneCell Nothing = new("", "");

    /// <param name="record">The record.</param>
    /// <param name="sources">The sources of its procedures; null: they are not known any more.</param>
    /// <param name="zone">The zone of its site; null: it is not known any more.</param>
    internal static ShownLanes Of(ServiceRecord record, IReadOnlyList<EnergySource>? sources, SiteZone? zone)
    {
        if (sources is null || zone is null)
        {
            return new([], [.. record.Timeline.Select(one => new LaneRow(When(one, record), What(one), []))]);
        }

        var events = NumberedEvent.Of(JudgedOrder.Of(record.Timeline, zone));
        var people = record
            .People.Select(one => one.Id)
            .Union(events.Select(one => one.Event.Actor))
            .ToList();
        var locks = events.Select(one => one.Event.Lock).OfType<Id<LockDevice>>().Distinct().ToList();
        List<(ShownLane Lane, Func<NumberedEvent, bool, (bool Is, LaneCell Cell)> Draw)> lanes =
        [
            .. people.Select(
                (person, at) => (new ShownLane(LaneKind.Person, person.Text, at == 0), Drawing(person))
            ),
            .. sources.Select(
                (source, at) => (new ShownLane(LaneKind.Source, source.Title, at == 0), Drawing(source.Id))
            ),
            .. locks.Select(
                (device, at) => (new ShownLane(LaneKind.Lock, device.Text, at == 0), Drawing(device))
            ),
        ];
        var stands = new bool[lanes.Count];
        List<LaneRow> rows = [];
        foreach (var one in events)
        {
            var cells = new LaneCell[lanes.Count];
            for (var at = 0; at < cells.Length; at++)
            {
                (stands[at], cells[at]) = lanes[at].Draw(one, stands[at]);
            }

            rows.Add(new(When(one.Event, record), What(one.Event), cells));
        }

        return new([.. lanes.Select(lane => lane.Lane)], rows);
    }

    private static string When(TimelineEvent one, ServiceRecord record) =>
        EventPrint.When(one.At, record.Date);

    private static string What(TimelineEvent one) => $"{EventPrint.Told(one)}, {one.Actor.Text}";

    private static Func<NumberedEvent, bool, (bool, LaneCell)> Drawing(Id<Participant> person) =>
        (one, stood) =>
        {
            var isOwn = one.Event.Actor == person;
            var stands = isOwn && one.BeginsWork || (stood && !(isOwn && EventMeaning.IsWorkEnd(one.Event)));
            var look =
                stood && stands ? "hands"
                : stands ? "hands begins"
                : stood ? "hands ends"
                : "";
            return (
                stands,
                isOwn ? new(Joined(look, "did"), stands ? "does it, hands in" : "does it")
                : one.Event.Others.Contains(person) ? new(Joined(look, "named"), "is named")
                : stood ? new(look, "hands in")
                : Nothing
            );
        };

    private static Func<NumberedEvent, bool, (bool, LaneCell)> Drawing(Id<EnergySource> source) =>
        (one, stood) =>
            Held(EventMeaning.Concerns(source, one.Event) ? EventMeaning.Of(one.Event) : Hold.None, stood);

    private static Func<NumberedEvent, bool, (bool, LaneCell)> Drawing(Id<LockDevice> device) =>
        (one, stood) => Held(one.Event.Lock == device ? EventMeaning.Of(one.Event) : Hold.None, stood);

    private static (bool, LaneCell) Held(Hold hold, bool stood) =>
        hold switch
        {
            Hold.Taken => (true, new(stood ? "held taken" : "held begins taken", "taken")),
            Hold.Proven => (true, new(stood ? "held proven" : "held begins proven", "proven")),
            Hold.Given => (false, new(stood ? "held ends given" : "given", "given back")),
            _ => (stood, stood ? new("held", "held") : Nothing),
        };

    private static string Joined(string look, string mark) => look.Length == 0 ? mark : $"{look} {mark}";
}
