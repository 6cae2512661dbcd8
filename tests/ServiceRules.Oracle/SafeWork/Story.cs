using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>What a record tells, in the order in which it happened, with the registers beside it.</summary>
internal sealed class Story
{
    private Story(ServiceRecord record, AssessmentContext context, IReadOnlyList<Step> steps)
    {
        Record = record;
        Context = context;
        Steps = steps;
        Spells = SpellsOf(steps);
        FirstWork = steps.FirstOrDefault(s => s.Kind == TimelineEventKind.WorkStarted);
        BeforeWork = [.. steps.Where(s => FirstWork is null || s.Before(FirstWork))];
        Place = PlaceTold.Of(record, context, steps);
        var fitting = context
            .Procedures.Where(p => p.Place == Place && p.Machines.Contains(record.Machine.Id))
            .ToList();
        Procedure = fitting.FirstOrDefault(p => IsCurrent(p, Day)) ?? fitting.LastOrDefault();
        // What the machine has is not on the bench with its unit.
        Machine =
            Place == WorkPlace.OnMachine
                ? context.Machines.FirstOrDefault(m => m.Id == record.Machine.Id)
                : null;
        Sources = AllSources();
    }

    private Possible? _exemption;

    public ServiceRecord Record { get; }

    /// <summary>Where the work was, by what was done: nobody starts or locks a unit without its machine.</summary>
    public WorkPlace Place { get; }

    public AssessmentContext Context { get; }

    public IReadOnlyList<Step> Steps { get; }

    /// <summary>Those that somebody entered.</summary>
    public IReadOnlyList<Step> Entered => field ??= [.. Steps.Where(s => !s.IsAssumed)];

    /// <summary>Whether an exemption that sets the whole of the control aside holds; asked by every row.</summary>
    public Possible Exemption => _exemption ??= ScopeRows.ExemptionOf(this);

    public IReadOnlyList<Spell> Spells { get; }

    /// <summary>Hands at a unit, by the bench log.</summary>
    public IReadOnlyList<Touch> Touches => field ??= [.. Touch.Of(this)];

    /// <summary>Those with hands at a unit in another's work, and not in their own.</summary>
    public IEnumerable<Touch> Guests =>
        Touches.Where(touch =>
            !Spells.Any(s => s.Person == touch.By && touch.IsIn(s))
            && Spells.Any(s => s.Person != touch.By && touch.IsIn(s))
        );

    public Step? FirstWork { get; }

    public IReadOnlyList<Step> BeforeWork { get; }

    /// <summary>The procedure in force for this machine, else one that was or will be.</summary>
    public Procedure? Procedure { get; }

    public RegisteredMachine? Machine { get; }

    /// <summary>Entries of something with energy of its own that came during the job.</summary>
    public IEnumerable<Step> Additions => Steps.Where(s => s.Kind == TimelineEventKind.SourceAdded);

    /// <summary>The procedure, where it is in force on the day of the job.</summary>
    public Procedure? InForce => Procedure is { } written && IsCurrent(written, Day) ? written : null;

    public IReadOnlyList<EnergySource> Sources { get; }

    public bool IsOpen => Record.SignOff is null;

    public bool HandsWentIn => FirstWork is not null;

    public IEnumerable<EnergySource> Isolatable => Sources.Where(s => s.Isolator is not null);

    public IEnumerable<EnergySource> Stored => Sources.Where(s => s.Stored);

    public IEnumerable<string> Workers =>
        Spells.Select(s => s.Person).Concat(StrayStops.Select(s => s.By)).Distinct();

    /// <summary>People who are said to do the work, and of whom no work is shown.</summary>
    public bool MayHaveOtherWorkers => SaidToWork.Any(p => !Workers.Contains(p));

    /// <summary>Said to do the work or to help with it, in the log too, but for those who help by standing at the stop.</summary>
    public IEnumerable<string> SaidToWork =>
        Record
            .People.Where(p => p.Role is JobRole.Performs or JobRole.Assists)
            .Select(p => p.Id.Text)
            .Concat(Touch.Untimed(this))
            .Where(p => !AtTheStop.Contains(p))
            .Distinct(StringComparer.Ordinal);

    /// <summary>Helpers whose hands are told of nowhere: named at the stop of a run, or the only one there is.</summary>
    public IReadOnlyCollection<string> AtTheStop => field ??= [.. StandingAtTheStop()];

    private IEnumerable<string> StandingAtTheStop()
    {
        var said = Steps
            .Where(s =>
                s.Kind == TimelineEventKind.AlternativeMeasuresRecorded
                && s.Event.Measures.Contains(ProtectiveMeasure.SecondPersonAtStopControl)
                && (
                    IsOpen
                    || Entered.Any(run =>
                        run.Kind
                            is TimelineEventKind.TestEnergised
                                or TimelineEventKind.EnergisedTaskPerformed
                        && s.Before(run)
                    )
                )
            )
            .ToList();
        var idle = Record
            .People.Select(p => p.Id.Text)
            .Distinct(StringComparer.Ordinal)
            .Where(id => Record.People.All(p => p.Id.Text != id || p.Role == JobRole.Assists))
            .Where(id => !Workers.Contains(id) && !Touch.Who(this).Contains(id))
            .Where(id =>
                !Steps.Any(s =>
                    s.By == id
                    && s.Kind
                        is TimelineEventKind.BlockageClearedByHand
                            or TimelineEventKind.BlockageClearedWithTool
                )
            )
            .ToList();
        return idle.Where(id => said.Exists(s => s.Event.Others.IsEmpty ? idle.Count == 1 : s.Names(id)));
    }

    public IEnumerable<string> Affected =>
        Record.People.Where(p => p.Role == JobRole.Affected).Select(p => p.Id.Text);

    public bool UsedDevices => Steps.Any(s => s.IsDeviceOn);

    public bool UsedTags => Steps.Any(s => s.Kind == TimelineEventKind.TagApplied);

    /// <summary>The local day of the job's first event.</summary>
    public DateOnly Day => Steps.Count == 0 ? Record.Date : Context.Zone.DayOf(Steps[0].Event.At);

    public DateOnly LastDay => Steps.Count == 0 ? Record.Date : Context.Zone.DayOf(Steps[^1].Event.At);

    /// <summary>The stop after which nobody's hands are in any more; none while somebody's still are.</summary>
    public Step? LastStop =>
        Spells.Count > 0 && Spells.All(s => s.Stop is not null)
            ? Spells.Select(s => s.Stop!).Concat(StrayStops).MaxBy(s => s.Place)
            : null;

    /// <summary>Ends of work of which no start is told; the same end told twice running is none.</summary>
    public IEnumerable<Step> StrayStops =>
        Steps.Where(s =>
            s.Kind == TimelineEventKind.WorkStopped
            && Spells.All(spell => spell.Stop?.Place != s.Place)
            && (
                Spells.Where(spell => spell.Person == s.By && spell.End < s.Place).MaxBy(spell => spell.End)
                    is not { } last
                || Steps.Any(o =>
                    last.End < o.Place && o.Before(s) && o.Kind != TimelineEventKind.WorkStopped
                )
            )
        );

    /// <summary>Whether somebody whose start is not told may have had hands in already after this step.</summary>
    public bool MayHaveBeenIn(Step step) =>
        StrayStops.Any(s =>
            step.Before(s)
            && !Steps.Any(o =>
                o.Kind == TimelineEventKind.WorkStopped && o.By == s.By && step.Before(o) && o.Before(s)
            )
        );

    /// <summary>Whether two people's hands were in at the same time; unsure where a stop is missing.</summary>
    public (bool Surely, bool Perhaps) SharedWork
    {
        get
        {
            var pairs = Spells.SelectMany(a => Spells.Where(b => a.Overlaps(b)).Select(b => (a, b))).ToList();
            bool surely = pairs.Any(p =>
                (p.a.Stop is not null || p.a.Start.Place > p.b.Start.Place)
                && (p.b.Stop is not null || p.b.Start.Place > p.a.Start.Place)
            );
            bool perhaps =
                pairs.Count > 0
                || StrayStops.Any(s =>
                    Spells.Any(spell => spell.Person != s.By && spell.Start.Before(s))
                    || StrayStops.Any(o => o.By != s.By)
                );
            return (surely, perhaps);
        }
    }

    /// <summary>A missing step: a breach once hands went in, and not there yet on an open job.</summary>
    public Possible Absent =>
        HandsWentIn ? Possible.NotMet
        : IsOpen ? Possible.Unproven
        : Possible.NeverMet;

    /// <summary>A step that is there; before hands go in nothing is finished.</summary>
    public Possible Present => HandsWentIn ? Possible.Met : Possible.NeverNotMet;

    public static Story? Of(ServiceRecord record, AssessmentContext context)
    {
        List<(TimelineEvent Event, Moment At)> timed = [];
        List<TimelineEvent> kept = [];
        foreach (var entry in record.Timeline)
        {
            if (kept.Exists(other => IsSentAgain(other, entry)))
            {
                continue;
            }

            kept.Add(entry);
            if (MomentOf(entry.At, context) is not { } at)
            {
                return null;
            }

            timed.Add((entry, at));
        }

        return new(
            record,
            context,
            ToldEntries.WithStartsOfTests(
                ToldEntries.WithHandsBack([
                    .. timed.OrderBy(t => t.At).Select(t => (ToldEntries.Told(t.Event), t.At)),
                ])
            )
        );
    }

    /// <summary>One identity and one content: the same entry, received a second time.</summary>
    public static bool IsSentAgain(TimelineEvent one, TimelineEvent other) =>
        one.EventId is not null
        && one.EventId == other.EventId
        && one.Others.SequenceEqual(other.Others)
        && one.Measures.SequenceEqual(other.Measures)
        && one.Crews.SequenceEqual(other.Crews)
        && one with
        {
            Others = [],
            Measures = [],
            Crews = [],
            ReceivedAt = null,
        } == other with { Others = [], Measures = [], Crews = [], ReceivedAt = null };

    /// <summary>Whether the machine is told to run just after a step.</summary>
    public bool RunsAfter(Step step) =>
        Steps.LastOrDefault(s =>
            s.Place <= step.Place
            && s.Kind
                is TimelineEventKind.TestEnergised
                    or TimelineEventKind.MachineStarted
                    or TimelineEventKind.TestEnded
                    or TimelineEventKind.MachineShutDown
        )
            is { Kind: TimelineEventKind.TestEnergised or TimelineEventKind.MachineStarted };

    /// <summary>The steps after each of which somebody's hands were in.</summary>
    public IEnumerable<Step> WithHandsIn =>
        Steps.Where(s => Spells.Any(spell => spell.Start.Place <= s.Place && s.Place < spell.End));

    public static Moment? MomentOf(RecordedTime time, AssessmentContext context) =>
        time switch
        {
            RecordedTime.Instant instant => instant.Moment,
            RecordedTime.LocalTime local when context.Zone.InstantOf(local) is ResolvedTime.Unique unique =>
                unique.Moment,
            _ => null,
        };

    /// <summary>The same story without some of its events.</summary>
    public Story Without(IReadOnlyCollection<TimelineEvent> entries) =>
        Of(
            Record with
            {
                Timeline =
                [
                    .. Record.Timeline.Where(e => !entries.Contains(e, ReferenceEqualityComparer.Instance)),
                ],
            },
            Context
        )!;

    public RegisteredPerson? Person(string id) => Context.People.FirstOrDefault(p => p.Id.Text == id);

    public RegisteredLock? Lock(string? id) => Context.Locks.FirstOrDefault(l => l.Id.Text == id);

    public bool IsOutside(string person) => Person(person)?.Employer == Employer.Outside;

    /// <summary>Whether a person may control energy; unproven where the register does not know the person.</summary>
    public Possible Authority(string person) =>
        Person(person) switch
        {
            null => Possible.NeverMet,
            { Authorised: true } => Possible.Met,
            _ => Possible.NotMet,
        };

    /// <summary>Those in charge, primary of the group or coordinator of the crews: as named, or whoever took it on unnamed.</summary>
    public IEnumerable<string> InCharge(TimelineEventKind assigned) =>
        Steps.Where(s => s.Kind == assigned).SelectMany(InCharge);

    public static IEnumerable<string> InCharge(Step assigned) =>
        assigned.Event.Others.IsEmpty ? [assigned.By] : assigned.Event.Others.Select(o => o.Text);

    /// <summary>Whether a claim is, by its own label, one that was entered only after hands went in.</summary>
    public bool IsEnteredAfterWork(Step claim) =>
        claim.Event.Mark is EntryMark.LateEntry or EntryMark.Transcription
        && FirstWork is { } work
        && (
            claim.Event.ReceivedAt is not { } received
            || MomentOf(received, Context) is not { } at
            || at > work.At
        );

    public IEnumerable<Step> Claims(ExemptionKind kind) =>
        Steps.Where(s => s.Kind == TimelineEventKind.ExemptionClaimed && s.Event.Claim?.Kind == kind);

    /// <summary>Whether what the machine has is known: a register of it, or a procedure in force.</summary>
    public bool KnowsSources =>
        Sources.Count > 0 && (Machine is not null || (Procedure is { } written && IsCurrent(written, Day)));

    /// <summary>Whether a device coming off was on.</summary>
    public bool WasOn(Step off) => LastOn(off) is not null;

    /// <summary>Whether something comes off, between two places, of which the record does not show that it was on.</summary>
    public bool HasStrayRemoval(Step from, Step until) =>
        Steps.Any(s => s.IsDeviceOff && from.Before(s) && s.Before(until) && !WasOn(s));

    /// <summary>The same device put on by another just before, with nothing coming off between.</summary>
    public bool WasHungByTwo(Step on)
    {
        var before = Steps.LastOrDefault(s =>
            (s.IsDeviceOn || s.IsDeviceOff) && s.Device == on.Device && s.Before(on)
        );
        return before is { IsDeviceOn: true } && before.By != on.By;
    }

    /// <summary>The putting on that a removal undoes.</summary>
    public Step? LastOn(Step off)
    {
        var last = Steps.LastOrDefault(s =>
            (s.IsDeviceOn || s.IsDeviceOff) && s.Device == off.Device && s.Before(off)
        );
        return last is { IsDeviceOn: true } ? last : null;
    }

    public Step? First(TimelineEventKind kind) => Steps.FirstOrDefault(s => s.Kind == kind);

    /// <summary>Devices on a source just before a place in the order.</summary>
    public IReadOnlyList<Step> DevicesOn(string source, int place)
    {
        List<Step> on = [];
        foreach (var step in Steps.TakeWhile(s => s.Place < place))
        {
            if (step.IsDeviceOn && step.IsOf(source))
            {
                on.RemoveAll(s => s.Device == step.Device);
                on.Add(step);
            }
            else if (step.IsDeviceOff)
            {
                on.RemoveAll(s => s.Device == step.Device);
            }
        }

        return on;
    }

    public static bool IsCurrent(Procedure procedure, DateOnly day) =>
        !(procedure.From > day) && !(procedure.Until < day);

    private static List<Spell> SpellsOf(IReadOnlyList<Step> steps)
    {
        List<Spell> spells = [];
        foreach (var step in steps)
        {
            int open = spells.FindIndex(s => s.Person == step.By && s.Stop is null);
            if (step.Kind == TimelineEventKind.WorkStarted && open < 0)
            {
                spells.Add(new(step.By, step, null));
            }
            else if (step.Kind == TimelineEventKind.WorkStopped && open >= 0)
            {
                spells[open] = spells[open] with { Stop = step };
            }
        }

        return spells;
    }

    private List<EnergySource> AllSources()
    {
        var had = Record.Place == WorkPlace.OnMachine ? Machine?.Sources ?? [] : [];
        List<EnergySource> all =
        [
            .. (Procedure?.Sources ?? []).Select(s => Worst(s, had.FirstOrDefault(m => m.Id == s.Id))),
        ];
        all.AddRange((Machine?.Sources ?? []).Where(s => all.All(known => known.Id != s.Id)));
        return all;
    }

    /// <summary>What either says of a danger is so.</summary>
    private static EnergySource Worst(EnergySource one, EnergySource? other) =>
        other is null
            ? one
            : one with
            {
                Isolator = one.Isolator ?? other.Isolator,
                Lockable = one.Lockable || other.Lockable,
                Stored = one.Stored || other.Stored,
                Reaccumulates = one.Reaccumulates || other.Reaccumulates,
                RecheckMinutes = new[] { one.RecheckMinutes, other.RecheckMinutes }.Min(),
                RecheckLimit =
                    one.RecheckLimit is null || other.RecheckLimit < one.RecheckLimit
                        ? other.RecheckLimit
                        : one.RecheckLimit,
            };
}
