using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
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
    private const int EventsMax = 34;

    private const double LabelWidth = 92;
    private const double LaneHeight = 11.5;
    private const double AxisHeight = 10;
    private const double WidestColumn = 26;

    private readonly IReadOnlyList<NumberedEvent> _all;
    private readonly IReadOnlyList<NumberedEvent> _shown;
    private readonly Drawing _drawing;
    private readonly double _column;
    private readonly LaneOverlay? _overlay;
    private int _lane;

    private LaneChart(
        IReadOnlyList<NumberedEvent> all,
        IReadOnlyList<NumberedEvent> shown,
        int lanes,
        double width,
        ITextMeasure measure,
        LaneOverlay? overlay
    )
    {
        _all = all;
        _shown = shown;
        _overlay = overlay;
        _drawing = new Drawing(measure, width, AxisHeight + (LaneHeight * lanes));
        _column = Math.Min(WidestColumn, (width - LabelWidth) / shown.Count);
    }

    /// <summary>Charts of about equal length, rather than a last one with two events.</summary>
    public static int EventsPerChart(int events)
    {
        var charts = Math.Max(1, (events + EventsMax - 1) / EventsMax);
        return Math.Max(1, (events + charts - 1) / charts);
    }

    /// <summary>A chart of some neighbouring events out of all.</summary>
    public static Picture Of(
        IReadOnlyList<NumberedEvent> all,
        IReadOnlyList<NumberedEvent> shown,
        IReadOnlyList<Participant> people,
        IReadOnlyList<EnergySource> sources,
        double width,
        ITextMeasure measure,
        LaneOverlay? overlay = null
    )
    {
        var marks = LaneMarkRows.Of(overlay, shown);
        var live = overlay is { Running.IsEmpty: false } ? 1 : 0;
        var lanes = people.Count + sources.Count + live + marks.Length;
        var chart = new LaneChart(all, shown, lanes, width, measure, overlay);
        chart.Axis();
        foreach (var person in people)
        {
            chart.Person(person);
        }
        foreach (var source in sources)
        {
            chart.Source(source);
        }
        if (live > 0)
        {
            chart.Live(overlay!.Running);
        }
        for (var row = 0; row < marks.Length; row++)
        {
            chart.Marks(row == 0 ? "not shown, not proven" : "", marks[row]);
        }
        var who = string.Join(", ", people.Select(person => person.Id.Text));
        var what = string.Join(", ", sources.Select(source => source.Title));
        return chart._drawing.AsFigure(
            $"events {shown[0].Number} to {shown[^1].Number} as lanes; people: {who}; energy sources: {what}; "
                + Heard(overlay)
                + "the list that follows tells each event"
        );
    }

    /// <summary>The stretches that are drawn, in words.</summary>
    private static string Heard(LaneOverlay? overlay)
    {
        if (overlay is null)
        {
            return "";
        }
        IEnumerable<string> parts =
        [
            .. overlay.Protected.Select(one => $"{one.Key.Text} protected {Heard(one.Value)}"),
            .. overlay
                .Unprotected.Where(one => !one.Value.IsEmpty)
                .Select(one => $"{one.Key.Text} hands in without shown protection {Heard(one.Value)}"),
        ];
        return string.Concat(parts.Select(part => part + "; "));
    }

    private static string Heard(ImmutableArray<LaneStretch> stretches) =>
        stretches.IsEmpty
            ? "never"
            : string.Join(
                " and ",
                stretches.Select(one =>
                    one.Until is { } until
                        ? $"from event {one.From} to event {until}"
                        : $"from event {one.From} on"
                )
            );

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
        foreach (var (from, to) in Drawn(Of(_overlay?.Protected, person.Id)))
        {
            var band = new Box(from, Top + 0.6, to - from, LaneHeight - 1.2);
            _drawing.Rectangle(band, Palette.Tolerance);
            Hatch.Rising(_drawing, band, 3.2, new Stroke(Palette.In, 0.35));
        }
        foreach (var (from, to) in Stretches(one => WorkOf(person.Id, one)))
        {
            var height = _overlay is null ? 7.2 : 5.2;
            var ink = _overlay is null ? Palette.Metal : Palette.Steel;
            _drawing.Rectangle(new Box(from, Middle - (height / 2), to - from, height), ink);
        }
        foreach (var (from, to) in Drawn(Of(_overlay?.Unprotected, person.Id)))
        {
            var bar = new Box(from, Middle - 4.2, to - from, 8.4);
            _drawing.Rectangle(bar, Ink.White, new Stroke(Palette.Stop, 1));
            Hatch.Falling(_drawing, bar, 2, new Stroke(Palette.Stop, 0.6));
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
        if (_overlay is not null)
        {
            Shown(source.Id, _overlay);
        }
        foreach (var (from, to) in _overlay is null ? Stretches(one => HoldOn(source.Id, one.Event)) : [])
        {
            _drawing.Rectangle(new Box(from, Middle - 3.6, to - from, 7.2), Palette.Acceptance);
        }
        for (var index = 0; index < _shown.Count; index++)
        {
            if (EventMeaning.Concerns(source.Id, _shown[index].Event))
            {
                Symbol(EventMeaning.Of(_shown[index].Event), new Point(X(index), Middle));
            }
        }
        _lane++;
    }

    /// <summary>What was judged, where the events alone would tell more than they prove.</summary>
    private void Shown(Id<EnergySource> source, LaneOverlay overlay)
    {
        foreach (var (from, to) in Drawn(Of(overlay.Off, source)))
        {
            _drawing.Rectangle(new Box(from, Middle - 3.6, to - from, 7.2), Palette.Tolerance);
        }
        foreach (var (from, to) in Drawn(Of(overlay.Proven, source)))
        {
            var band = new Box(from, Middle - 3.6, to - from, 7.2);
            _drawing.Rectangle(band, Palette.Acceptance);
            Hatch.Rising(_drawing, band, 3.2, new Stroke(Palette.In, 0.35));
        }
    }

    private void Live(ImmutableArray<LaneStretch> running)
    {
        Name("machine runs, or is live", Palette.Tiny);
        foreach (var (from, to) in Drawn(running))
        {
            var bar = new Box(from, Middle - 2.6, to - from, 5.2);
            _drawing.Rectangle(bar, Ink.White, new Stroke(Palette.Ink, 0.7));
            Hatch.Rising(_drawing, bar, 1.8, new Stroke(Palette.Ink, 0.5));
        }
        _lane++;
    }

    private void Marks(string name, ImmutableArray<LaneMark> marks)
    {
        const double Side = LaneMarkRows.Side;
        Name(name, Palette.Tiny);
        foreach (var mark in marks)
        {
            var isOut = mark.Verdict == Verdict.NotMet;
            var ink = isOut ? Palette.Stop : Palette.NotProven;
            var x = X(mark.Event - _shown[0].Number);
            _drawing.Rectangle(
                new Box(x - (Side / 2), Middle - (Side / 2), Side, Side),
                isOut ? ink : Ink.White,
                new Stroke(ink, 0.9)
            );
            var style = Palette.Label with { Ink = isOut ? Ink.White : ink, Face = Face.NarrowBold };
            _drawing.Text(x, Middle + 1.95, mark.Letter, style, Align.Centre, Side - 1);
        }
        _lane++;
    }

    private static ImmutableArray<LaneStretch> Of<T>(
        IReadOnlyDictionary<Id<T>, ImmutableArray<LaneStretch>>? lanes,
        Id<T> of
    ) => lanes is not null && lanes.TryGetValue(of, out var stretches) ? stretches : [];

    private IEnumerable<(double From, double To)> Drawn(ImmutableArray<LaneStretch> stretches)
    {
        var first = _shown[0].Number;
        var end = LabelWidth + (_column * _shown.Count);
        foreach (var stretch in stretches)
        {
            var from = stretch.From < first ? LabelWidth : X(stretch.From - first);
            var to = stretch.Until is { } until && until - first < _shown.Count ? X(until - first) : end;
            if (from < end && to > LabelWidth && to > from)
            {
                yield return (from, to);
            }
        }
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

    private static bool? WorkOf(Id<Participant> person, NumberedEvent one) =>
        one.Event.Actor != person ? null
        : one.BeginsWork ? true
        : EventMeaning.IsWorkEnd(one.Event) ? false
        : null;

    private static bool? HoldOn(Id<EnergySource> source, TimelineEvent one) =>
        !EventMeaning.Concerns(source, one)
            ? null
            : EventMeaning.Of(one) switch
            {
                Hold.Taken or Hold.Proven => true,
                Hold.Given => false,
                _ => null,
            };

    /// <summary>The stretches of this chart in which a state that events switch on and off is on.</summary>
    private List<(double From, double To)> Stretches(Func<NumberedEvent, bool?> switches)
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
            switch (switches(one))
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
