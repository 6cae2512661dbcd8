using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Reports.Drawings;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>One job arranged for telling what its record shows of safe work.</summary>
internal sealed class SafeWorkView
{
    private const string PointerStart = "/timeline/";

    /// <summary>Entries at the bench that are named; the attached assessment names all.</summary>
    private const int OthersMax = 4;

    /// <summary>Stretches of time that are told one by one on page one.</summary>
    private const int StretchesMax = 4;

    private readonly Dictionary<int, int> _numbers;
    private readonly Dictionary<string, BenchEntry> _bench;

    public SafeWorkView(JobView job)
    {
        Job = job;
        Frame = FrameBuilder.Build(job.Record, job.Assessed.Context, job.Assessed.Book);
        Reading = TimelineReading.Of(Frame);
        Found = SafeWorkFindings.Of(job.Assessed);
        Clauses = Clauses.Of([job.Assessed]);
        Events = NumberedEvent.Of(Frame.Events);
        _numbers = Frame
            .Events.Select((one, at) => (one.Index, Number: at + 1))
            .ToDictionary(one => one.Index, one => one.Number);
        _bench = job
            .Record.Units.SelectMany(
                (unit, at) => unit.Entries.Select((entry, index) => (Pointer: PointerOf(at, index), entry))
            )
            .ToDictionary(one => one.Pointer, one => one.entry, StringComparer.Ordinal);
        var letters = 0;
        // What is to come is told last.
        Causes =
        [
            .. Cause
                .Of(Duties(toCome: false))
                .Concat(Duties(toCome: true).Select(one => new Cause([one])))
                .Select(cause => new MarkedCause(
                    cause,
                    [.. cause.Findings.Select(one => new MarkedFinding(LetterOf(letters++), one))]
                )),
        ];
        Marked = [.. Causes.SelectMany(cause => cause.Marked)];
        Effective = EffectiveSources.Of(Reading);
        People = ProtectedPeople.Of(this);
    }

    public JobView Job { get; }

    public JobFrame Frame { get; }

    public TimelineReading Reading { get; }

    public SafeWorkFindings Found { get; }

    /// <summary>What the site's jurisdictions cite.</summary>
    public Clauses Clauses { get; }

    /// <summary>Every entry in judged order.</summary>
    public ImmutableArray<NumberedEvent> Events { get; }

    /// <summary>What leaves duties open, the gravest first, then what is to come.</summary>
    public ImmutableArray<MarkedCause> Causes { get; }

    /// <summary>What leaves duties open that are due by now.</summary>
    public IEnumerable<MarkedCause> DueCauses => Causes.Where(cause => !cause.Marked[0].Told.IsToCome);

    /// <summary>Duties that are not shown or not proven, by letter.</summary>
    public ImmutableArray<MarkedFinding> Marked { get; }

    /// <summary>Everybody with hands in: when, and when protected from what.</summary>
    public ImmutableArray<ProtectedPerson> People { get; }

    /// <summary>What people had to be protected from: by the procedure, the machine's register, or what came during the job.</summary>
    public ImmutableArray<EffectiveSource> Effective { get; }

    public IEnumerable<EnergySource> Sources => Effective.Select(one => one.Source);

    public string? LetterOf(SafeWorkFinding finding) =>
        Marked.FirstOrDefault(one => one.Told == finding)?.Letter;

    /// <summary>Another finding tells of it where what needs action is told.</summary>
    public bool IsSummedUp(SafeWorkFinding finding) =>
        Causes.Any(cause => cause.Cause.IsOfHands && cause.Cause.Findings.IndexOf(finding) > 0);

    /// <summary>The number of the event that stands at a place; nought: before every event.</summary>
    public int NumberAt(TimelinePlace place) => _numbers.GetValueOrDefault(place.Index);

    public RecordedTime? TimeAt(TimelinePlace place) =>
        NumberAt(place) is var number and > 0 ? Events[number - 1].Event.At : null;

    /// <summary>The event that an evidence pointer names, by its number; null: it names something else.</summary>
    public int? NumberOf(string pointer) =>
        pointer.StartsWith(PointerStart, StringComparison.Ordinal)
        && int.TryParse(
            pointer.AsSpan(PointerStart.Length),
            NumberStyles.None,
            CultureInfo.InvariantCulture,
            out var index
        )
        && _numbers.TryGetValue(index, out var number)
            ? number
            : null;

    /// <summary>The entry of a bench log that an evidence pointer names; null: it names something else.</summary>
    public BenchEntry? BenchEntryOf(string pointer) => _bench.GetValueOrDefault(pointer);

    /// <summary>The pointer of an event into the record.</summary>
    public string PointerOf(NumberedEvent one) =>
        string.Create(CultureInfo.InvariantCulture, $"{PointerStart}{Frame.Events[one.Number - 1].Index}");

    /// <summary>Evidence as numbers of events, runs drawn together; what else it names as it is.</summary>
    public string Evidence(IEnumerable<string> pointers)
    {
        var all = pointers.ToList();
        var numbers = all.Select(NumberOf).OfType<int>().Distinct().Order().ToList();
        var others = all.Where(pointer => NumberOf(pointer) is null)
            .OrderBy(pointer => pointer.Length)
            .ThenBy(pointer => pointer, StringComparer.Ordinal)
            .ToList();
        var more = others.Count > OthersMax ? $" and {others.Count - OthersMax} more" : "";
        return string.Join(", ", [.. NumberRuns.Of(numbers), .. others.Take(OthersMax)]) + more;
    }

    public ImmutableArray<LaneStretch> Stretches(IntervalSet when) =>
        [
            .. when.Intervals.Select(one => new LaneStretch(
                NumberAt(one.From),
                one.Until is { } until ? NumberAt(until) : null
            )),
        ];

    /// <summary>A stretch in words: its times, and the numbers of the events that begin and end it.</summary>
    public string Told(TimelineInterval one)
    {
        var from = TimeAt(one.From) is { } begins ? When(begins) : "from the start";
        var numbers = new List<int> { NumberAt(one.From) };
        var until = "to the end of the record";
        if (one.Until is { } end && TimeAt(end) is { } ends)
        {
            until = $"to {When(ends)}";
            numbers.Add(NumberAt(end));
        }
        var events = string.Join(", ", numbers.Where(number => number > 0));
        return events.Length == 0 ? $"{from} {until}" : $"{from} {until} ({events})";
    }

    public string Told(IntervalSet when, string never) =>
        when.Intervals.IsEmpty ? never : string.Join("; ", when.Intervals.Select(Told));

    /// <summary>The first stretches of many in words, and how many more there are: a list of hundreds leaves no room for anything else.</summary>
    public string ToldBriefly(IntervalSet when)
    {
        var all = when.Intervals;
        return IsCut(when)
            ? $"{string.Join("; ", all.Take(StretchesMax).Select(Told))}; {More(all.Length - StretchesMax)}"
            : Told(when, "");
    }

    /// <summary>How many more there are of what page one has no room for, and where they stand.</summary>
    public string More(int count, string what = "")
    {
        IsCutOnPageOne = true;
        return string.Create(
            CultureInfo.InvariantCulture,
            $"and {count} more{what}, see page {PageOfProtection}"
        );
    }

    /// <summary>Something is left out on page one.</summary>
    public bool IsCutOnPageOne { get; private set; }

    /// <summary>The page on which it is told who was protected from what; known once it is laid out.</summary>
    public int PageOfProtection { get; set; }

    /// <summary>Whether not every one of some stretches is told where they are told briefly.</summary>
    public static bool IsCut(IntervalSet when) => when.Intervals.Length > StretchesMax;

    public string When(RecordedTime at) => EventPrint.When(at, Job.Record.Date);

    private IEnumerable<SafeWorkFinding> Duties(bool toCome) =>
        Found.Open.Where(one => one.Kind == SafeWorkKind.Duty && one.IsToCome == toCome);

    private static string PointerOf(int unit, int entry) =>
        string.Create(CultureInfo.InvariantCulture, $"/units/{unit}/entries/{entry}");

    private static string LetterOf(int at)
    {
        const int Letters = 26;
        var letter = (char)('A' + (at % Letters));
        return at < Letters ? $"{letter}" : $"{(char)('A' + (at / Letters) - 1)}{letter}";
    }
}
