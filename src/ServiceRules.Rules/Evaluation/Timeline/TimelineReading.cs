using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Duties;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// The timeline of a record, read once: who had hands in and when, which locks and tags were on and when, when the
/// machine ran.
/// </summary>
public sealed class TimelineReading
{
    // A timeline is asked by many rules: what was read of it is kept for as long as its job is.
    private static readonly ConditionalWeakTable<JobFrame, TimelineReading> OfJobs = [];

    private readonly Lazy<FrozenSet<string>> weakened;
    private readonly Lazy<ProtectionReading?> protection;
    private readonly Lazy<TimelineWords> words;
    private readonly Lazy<Id<EnergySource>?> sourceOfPlug;
    private readonly Lazy<ImmutableArray<OtherReading>> others;
    private readonly Lazy<FrozenSet<int>> glovesOff;

    private TimelineReading(JobFrame frame)
    {
        Frame = frame;
        Events = [.. JudgedEntries.Of(frame.Events).Select(AsItStood)];
        Works = WorkOf(Events);
        StopsWithoutStart = [.. Of(TimelineEventKind.WorkStopped).Where(LacksStart)];
        Devices = DevicesOf(Events);
        HandsByTheLog = HandsAtUnit.Of(frame);
        HandsWithoutTime = HandsAtUnit.WithoutTime(frame);
        ImmutableArray<Id<Participant>> shown =
        [
            .. Works
                .Select(work => work.Person)
                .Concat(StopsWithoutStart.Select(stop => stop.Event.Actor))
                .Concat(
                    Of(TimelineEventKind.BlockageClearedByHand, TimelineEventKind.BlockageClearedWithTool)
                        .Select(entry => entry.Event.Actor)
                )
                .Concat(HandsByTheLog.Select(hands => hands.Entry.By).OfType<Id<Participant>>())
                .Concat(HandsWithoutTime.Select(hands => hands.Person))
                .Distinct(),
        ];
        AtTheStop = StopHeld.Assistants(frame.Record, Events, shown, IsOpen);
        HandsIn = HandsInOf(frame.Record, AtTheStop, shown);
        var starts = Of(TimelineEventKind.TestEnergised, TimelineEventKind.MachineStarted);
        Energisings = [.. starts.Concat(TestEnds.WithoutStart(Events)).OrderBy(entry => entry.Place())];
        Running = IntervalSet.Latched(
            starts.Places(),
            Of(TimelineEventKind.TestEnded, TimelineEventKind.MachineShutDown).Places()
        );
        AnyWork = IntervalSet.Of(Works.Select(work => work.Interval));
        words = new(() => TimelineWords.Of(this));
        sourceOfPlug = new(() => EffectiveSources.OfPlug(this));
        others = new(() => OtherReading.AtTheMachine(frame));
        glovesOff = new(() => Timeline.GlovesOff.Runs(this));
        weakened = new(() => CredibilityReading.Weakened(this));
        protection = new(() => ProtectionReading.Of(this));
    }

    /// <summary>The job that it was read from.</summary>
    public JobFrame Frame { get; }

    /// <summary>The entries in judged order, each event once.</summary>
    public ImmutableArray<OrderedEvent> Events { get; }

    /// <summary>
    /// Everybody with hands in: whoever the record names as doing or helping with the work (but not <see cref="AtTheStop"/>),
    /// then whoever it shows at work, clearing a blockage, or at a unit by an entry of the bench log, timed or not.
    /// </summary>
    public ImmutableArray<Id<Participant>> HandsIn { get; }

    /// <summary>Whoever helps by standing at the stop while the reel runs, and is shown with hands in nowhere.</summary>
    public ImmutableArray<Id<Participant>> AtTheStop { get; }

    /// <summary>Hands-on work, in the order it began.</summary>
    public ImmutableArray<WorkInterval> Works { get; }

    /// <summary>Ends of hands-on work whose start the record does not show: hands were in until then.</summary>
    public ImmutableArray<OrderedEvent> StopsWithoutStart { get; }

    /// <summary>Locks and tags, in the order they were put on.</summary>
    public ImmutableArray<DeviceInterval> Devices { get; }

    /// <summary>Hands at a unit at the times of the bench log.</summary>
    internal ImmutableArray<HandsAtUnit> HandsByTheLog { get; }

    /// <summary>Hands at a unit by entries of the bench log that say whose, and not when.</summary>
    internal ImmutableArray<HandsWithoutTime> HandsWithoutTime { get; }

    /// <summary>
    /// Starts of the machine, for a test or after release; of a test whose start is not entered, its end: until then it ran.
    /// </summary>
    public ImmutableArray<OrderedEvent> Energisings { get; }

    /// <summary>When the record shows the machine running.</summary>
    public IntervalSet Running { get; }

    /// <summary>When anybody was at work.</summary>
    public IntervalSet AnyWork { get; }

    /// <summary>No sign-off: the job goes on.</summary>
    public bool IsOpen => Frame.State == RecordState.Open;

    /// <summary>The first hands-on work of anybody, or null.</summary>
    public WorkInterval? FirstWork => Works.IsEmpty ? null : Works[0];

    /// <summary>Who was protected when; null: neither a procedure nor the register of machines says from what.</summary>
    public ProtectionReading? Protection => protection.Value;

    /// <summary>What an entry about a plug speaks of that names no source; null: it cannot be told.</summary>
    internal Id<EnergySource>? SourceOfPlug => sourceOfPlug.Value;

    /// <summary>What other records show at the same machine.</summary>
    internal ImmutableArray<OtherReading> Others => others.Value;

    /// <summary>Runs before which gloves are said to be off, by the index of the entry that begins them.</summary>
    internal IReadOnlySet<int> GlovesOff => glovesOff.Value;

    /// <summary>How its entries are told.</summary>
    internal TimelineWords Words => words.Value;

    /// <summary>Evidence pointers of the entries that are not credible enough to prove anything by themselves.</summary>
    public IReadOnlySet<string> Weakened => weakened.Value;

    /// <summary>Whether every one of some entries proves something by itself.</summary>
    internal bool AreCredible(IEnumerable<OrderedEvent> entries) =>
        !entries.Any(entry => Weakened.Contains(entry.Pointer()));

    /// <summary>Reads the timeline of a job.</summary>
    public static TimelineReading Of(JobFrame frame)
    {
        ArgumentNullException.ThrowIfNull(frame);
        return OfJobs.GetValue(frame, job => new(job));
    }

    /// <summary>The entries of any of these kinds.</summary>
    public ImmutableArray<OrderedEvent> Of(params ReadOnlySpan<TimelineEventKind> kinds)
    {
        var found = ImmutableArray.CreateBuilder<OrderedEvent>();
        foreach (var entry in Events)
        {
            if (kinds.Contains(entry.Event.Kind))
            {
                found.Add(entry);
            }
        }

        return found.ToImmutable();
    }

    /// <summary>The first hands-on work of a person, or null.</summary>
    public WorkInterval? FirstWorkOf(Id<Participant> person) =>
        Works.FirstOrDefault(work => work.Person == person);

    /// <summary>The end of hands-on work of everybody (or of one person); null: none is shown, or somebody goes on.</summary>
    public OrderedEvent? EndOfWork(Id<Participant>? person = null)
    {
        var theirs = Works.Where(work => person is null || work.Person == person).ToList();
        return theirs.Exists(work => work.Stop is null)
            ? null
            : theirs
                .Select(work => work.Stop)
                .OfType<OrderedEvent>()
                .Concat(StopsWithoutStart.Where(stop => person is null || stop.Event.Actor == person))
                .MaxBy(stop => stop.Place());
    }

    /// <summary>Every end of hands-on work, its start shown or not.</summary>
    internal IEnumerable<OrderedEvent> EndsOfWork =>
        Works.Select(work => work.Stop).OfType<OrderedEvent>().Concat(StopsWithoutStart);

    /// <summary>
    /// Ends of work without a start, by people of whom no other end stands between a place and that one: their hands
    /// may have been in at that place already.
    /// </summary>
    internal IEnumerable<OrderedEvent> MayHaveBeenIn(TimelinePlace place) =>
        StopsWithoutStart.Where(stop =>
            stop.Place() > place
            && !Of(TimelineEventKind.WorkStopped)
                .Any(other =>
                    other.Event.Actor == stop.Event.Actor
                    && other.Place() > place
                    && other.Place() < stop.Place()
                )
        );

    // A switch that is closed is on, whatever word it is entered with.
    private static OrderedEvent AsItStood(OrderedEvent entry) =>
        ElectricIsolators.IsClosedLive(entry.Event)
            ? entry with
            {
                Event = entry.Event with { Position = IsolatorPosition.On },
            }
            : entry;

    private static ImmutableArray<WorkInterval> WorkOf(ImmutableArray<OrderedEvent> events)
    {
        var works = new List<WorkInterval>();
        foreach (var entry in events)
        {
            var open = works.FindIndex(work => work.Person == entry.Event.Actor && work.Stop is null);
            if (entry.Event.Kind == TimelineEventKind.WorkStarted && open < 0)
            {
                works.Add(new(entry.Event.Actor, entry, null));
            }
            else if (entry.Event.Kind == TimelineEventKind.WorkStopped && open >= 0)
            {
                works[open] = works[open] with { Stop = entry };
            }
        }

        return [.. works];
    }

    /// <summary>
    /// An end of work that closes no stretch. The same end entered twice is none, as long as nothing but ends of work
    /// stands between.
    /// </summary>
    private bool LacksStart(OrderedEvent stop)
    {
        if (Works.Any(work => work.Stop?.Index == stop.Index))
        {
            return false;
        }

        var before = Works
            .Where(work => work.Person == stop.Event.Actor)
            .Select(work => work.Stop)
            .OfType<OrderedEvent>()
            .LastOrDefault(ended => ended.Place() < stop.Place());
        return before is null
            || Events.Any(entry =>
                entry.Event.Kind != TimelineEventKind.WorkStopped
                && entry.Place() > before.Place()
                && entry.Place() < stop.Place()
            );
    }

    private static ImmutableArray<DeviceInterval> DevicesOf(ImmutableArray<OrderedEvent> events)
    {
        var devices = new List<DeviceInterval>();
        foreach (var entry in events)
        {
            if (entry.Event.Lock is not { } device)
            {
                continue;
            }

            switch (entry.Event.Kind)
            {
                case TimelineEventKind.LockApplied
                or TimelineEventKind.TagApplied
                    when !devices.Exists(on => IsStillOn(on, device, entry.Event.Source)):
                    devices.Add(new(device, entry, null));
                    break;
                case TimelineEventKind.LockRemoved or TimelineEventKind.TagRemoved:
                    TakeOff(devices, device, entry);
                    break;
                default:
                    break;
            }
        }

        return [.. devices];
    }

    private static bool IsStillOn(DeviceInterval on, Id<LockDevice> device, SourceReference? source) =>
        on.Removed is null && on.Device == device && on.Applied.Event.Source == source;

    // A lock hangs in one place: taken off a source that it is not recorded on, it is off all the same.
    private static void TakeOff(List<DeviceInterval> devices, Id<LockDevice> device, OrderedEvent entry)
    {
        var there = devices.Exists(on => IsStillOn(on, device, entry.Event.Source));
        for (var index = 0; index < devices.Count; index++)
        {
            var on = devices[index];
            if (there ? IsStillOn(on, device, entry.Event.Source) : on.Removed is null && on.Device == device)
            {
                devices[index] = on with { Removed = entry };
            }
        }
    }

    private static ImmutableArray<Id<Participant>> HandsInOf(
        ServiceRecord record,
        ImmutableArray<Id<Participant>> atTheStop,
        IEnumerable<Id<Participant>> atWork
    ) =>
        [
            .. record
                .People.Where(person => person.Role is JobRole.Performs or JobRole.Assists)
                .Select(person => person.Id)
                .Where(person => !atTheStop.Contains(person))
                .Concat(atWork)
                .Distinct(),
        ];
}
