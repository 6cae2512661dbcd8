using System.Globalization;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.Drawings;

/// <summary>
/// One lane for each person and each energy source, one column for each event in the order of time. Columns are of
/// equal width: the order and the overlap are what is judged, and minutes of make-safe would vanish beside hours of
/// work.
/// </summary>
internal sealed class LaneChart
{
    /// <summary>Events in one chart; more make a second one below.</summary>
    public const int EventsMax = 34;

    private const double LabelWidth = 92;
    private const double LaneHeight = 11.5;
    private const double AxisHeight = 10;
    private const double WidestColumn = 26;

    private readonly IReadOnlyList<NumberedEvent> _all;
    private readonly IReadOnlyList<NumberedEvent> _shown;
    private readonly Drawing _drawing;
    private readonly double _column;
    private int _lane;

    private LaneChart(
        IReadOnlyList<NumberedEvent> all,
        IReadOnlyList<NumberedEvent> shown,
        int lanes,
        double width,
        ITextMeasure measure
    )
    {
        _all = all;
        _shown = shown;
        _drawing = new Drawing(measure, width, AxisHeight + (LaneHeight * lanes));
        _column = Math.Min(WidestColumn, (width - LabelWidth) / shown.Count);
    }

    /// <summary>A chart of some neighbouring events out of all.</summary>
    public static Picture Of(
        IReadOnlyList<NumberedEvent> all,
        IReadOnlyList<NumberedEvent> shown,
        IReadOnlyList<Participant> people,
        IReadOnlyList<EnergySource> sources,
        double width,
        ITextMeasure measure
    )
    {
        var chart = new LaneChart(all, shown, people.Count + sources.Count, width, measure);
        chart.Axis();
        foreach (var person in people)
        {
            chart.Person(person);
        }
        foreach (var source in sources)
        {
            chart.Source(source);
        }
        var who = string.Join(", ", people.Select(person => person.Id.Text));
        var what = string.Join(", ", sources.Select(source => source.Title));
        return chart._drawing.AsFigure(
            $"events {shown[0].Number} to {shown[^1].Number} as lanes; people: {who}; energy sources: {what}; "
                + "the list that follows tells each event"
        );
    }

    private double X(int index) => LabelWidth + ((index + 0.5) * _column);

    private double Top => AxisHeight + (LaneHeight * _lane);

    private double Middle => Top + (LaneHeight / 2);

    private void Axis()
    {
        var last = "";
        for (var index = 0; index < _shown.Count; index++)
        {
            var time = TimePrint.HourMinute(_shown[index].Event.At);
            var x = X(index);
            _drawing.Line(x, AxisHeight, x, _drawing.Height, new Stroke(Palette.Hair, 0.3));
            if (time != last)
            {
                _drawing.Text(x, AxisHeight - 3, time, Palette.Label, Align.Centre, Math.Max(_column, 10));
            }
            last = time;
        }
    }

    private void Name(string name, TextStyle style)
    {
        _drawing.Line(0, Top, _drawing.Width, Top, new Stroke(Palette.Hair, 0.35));
        _drawing.Text(0, Middle + 2.2, name, style, Align.Left, LabelWidth - 6);
    }

    private void Person(Participant person)
    {
        Name($"{person.Id.Text} ({ReportWords.Of(person.Role)})", Palette.TinyBold);
        foreach (var (from, to) in Stretches(one => WorkOf(person.Id, one)))
        {
            _drawing.Rectangle(new Box(from, Middle - 3.6, to - from, 7.2), Palette.Metal);
        }
        for (var index = 0; index < _shown.Count; index++)
        {
            var one = _shown[index];
            if (one.Event.Actor == person.Id)
            {
                Number(one, X(index));
            }
            else if (one.Event.Others.Contains(person.Id))
            {
                _drawing.Circle(new Point(X(index), Middle), 1.6, Ink.White, new Stroke(Palette.Quiet, 0.7));
            }
        }
        _lane++;
    }

    private void Number(NumberedEvent one, double x)
    {
        var late = one.Event.Mark is EntryMark.LateEntry or EntryMark.Transcription;
        var ink = late ? Ink.White : Palette.Ink;
        var text = one.Number.ToString(CultureInfo.InvariantCulture);
        var style = Palette.Label with { Ink = late ? Palette.Ink : Ink.White, Face = Face.NarrowBold };
        _drawing.Circle(new Point(x, Middle), 4.4, ink, new Stroke(Palette.Ink, 0.7));
        _drawing.Text(x, Middle + 1.95, text, style, Align.Centre, 8);
    }

    private void Source(EnergySource source)
    {
        Name(source.Title, Palette.Tiny);
        foreach (var (from, to) in Stretches(one => HoldOn(source.Id, one)))
        {
            _drawing.Rectangle(new Box(from, Middle - 3.6, to - from, 7.2), Palette.Acceptance);
        }
        for (var index = 0; index < _shown.Count; index++)
        {
            if (Concerns(source.Id, _shown[index].Event))
            {
                Symbol(EventMeaning.Of(_shown[index].Event), new Point(X(index), Middle));
            }
        }
        _lane++;
    }

    private void Symbol(Hold hold, Point at)
    {
        switch (hold)
        {
            case Hold.Taken:
                _drawing.Circle(at, 2.3, Palette.Ink);
                break;
            case Hold.Proven:
                var box = new Box(at.X - 3.6, at.Y - 3.6, 7.2, 7.2);
                MarkDrawing.Put(_drawing, Mark.In, box, Palette.In, Ink.White);
                break;
            case Hold.Given:
                _drawing.Circle(at, 2.1, Ink.White, new Stroke(Palette.Ink, 0.8));
                break;
            default:
                break;
        }
    }

    private static bool Concerns(Id<EnergySource> source, TimelineEvent one) =>
        one.Source switch
        {
            SourceReference.One named => named.Source == source,
            SourceReference.All or SourceReference.GroupBox => true,
            _ => one.Kind switch
            {
                TimelineEventKind.UnitsLowered or TimelineEventKind.UnitSupported => source.Text == "gravity",
                TimelineEventKind.ReelWedged => source.Text == "reel_rotation",
                TimelineEventKind.MachineStarted => true,
                _ => false,
            },
        };

    private static bool? WorkOf(Id<Participant> person, TimelineEvent one) =>
        one.Actor != person ? null
        : EventMeaning.IsWorkStart(one) ? true
        : EventMeaning.IsWorkEnd(one) ? false
        : null;

    private static bool? HoldOn(Id<EnergySource> source, TimelineEvent one) =>
        !Concerns(source, one)
            ? null
            : EventMeaning.Of(one) switch
            {
                Hold.Taken or Hold.Proven => true,
                Hold.Given => false,
                _ => null,
            };

    /// <summary>The stretches of this chart in which a state that events switch on and off is on.</summary>
    private List<(double From, double To)> Stretches(Func<TimelineEvent, bool?> switches)
    {
        var stretches = new List<(double, double)>();
        var first = _shown[0].Number;
        double? since = null;
        foreach (var one in _all)
        {
            var index = one.Number - first;
            if (index >= _shown.Count)
            {
                break;
            }
            switch (switches(one.Event))
            {
                case true:
                    since ??= index < 0 ? LabelWidth : X(index);
                    break;
                case false when since is { } from:
                    if (index >= 0)
                    {
                        stretches.Add((from, X(index)));
                    }
                    since = null;
                    break;
                default:
                    break;
            }
        }
        if (since is { } open)
        {
            stretches.Add((open, LabelWidth + (_column * _shown.Count)));
        }
        return stretches;
    }
}
