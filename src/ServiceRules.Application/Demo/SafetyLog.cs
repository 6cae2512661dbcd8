using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Application.Demo;

/// <summary>The make-safe timeline of a job, written as the clock goes on, by the machine's own procedure.</summary>
internal sealed class SafetyLog
{
    private static readonly ImmutableArray<(string Source, string How)> Releases =
    [
        ("hydraulic", "lift and reel controls moved through their travel, no pressure left"),
        ("gravity", "units down on the floor, rest and do not sink"),
        ("reel_rotation", "reel wedged with a hardwood block"),
        ("wheel_rotation", "wheel and reel run down and seen at rest, reel wedged"),
    ];

    // What the gauge of a relieved circuit shows.
    private static readonly Pressure Nothing = Pressure.Parse("0 bar").OrThrow();

    private readonly List<TimelineEvent> events = [];
    private readonly Visit visit;
    private readonly Procedure procedure;
    private readonly string device;
    private int sequence;
    private readonly HashSet<(string Person, Id<EnergySource> Source)> hung = [];
    private Moment checkedAt;

    public SafetyLog(Visit visit, Procedure procedure)
    {
        this.visit = visit;
        this.procedure = procedure;
        device = "tablet-" + visit.Crew[0][^1];
        sequence = visit.Chance.Between(200, 9_000);
    }

    private string First => visit.Crew[0];

    /// <summary>Whoever ends the job on the machine.</summary>
    private string Last => visit.IsInShifts ? visit.Crew[^1] : First;

    private IEnumerable<EnergySource> Lockable => procedure.Sources.Where(source => source.Lockable);

    /// <summary>Those who go in first.</summary>
    private ImmutableArray<string> Starting => visit.IsInShifts ? [visit.Crew[0]] : visit.Crew;

    private bool IsOnBench => procedure.Place is WorkPlace.OnBench;

    /// <summary>On the bench, and nothing there to switch off; a grinder has its own switch.</summary>
    private bool IsPlainBench => IsOnBench && !procedure.Sources.Any(source => source.Isolator is not null);

    /// <summary>How long it takes until everything is seen at rest, seconds.</summary>
    private int RunDown => Math.Max(20, procedure.RunDownSeconds ?? 0);

    /// <summary>Everything up to hands on the unit.</summary>
    public void MakeSafe()
    {
        if (IsPlainBench)
        {
            HoldUnit();
        }
        else
        {
            if (IsOnBench)
            {
                Note(TimelineEventKind.EnergyReviewed, First, 45, reviewed: procedure.Id.Text);
            }
            else
            {
                Announce();
            }

            Stop();
            Isolate(Starting);
            Release();
            if (!visit.Has(SeededFaultKind.IsolationNotVerified))
            {
                Verify();
            }
        }

        foreach (var person in Starting)
        {
            StartWork(person);
        }
    }

    public void StartWork(string person)
    {
        Step(TimelineEventKind.GlovesWorn, person, 12);
        Step(TimelineEventKind.WorkStarted, person, 6);
        checkedAt = visit.Clock.Moment;
    }

    /// <summary>Makes the machine dead again after it was run.</summary>
    public void MakeDeadAgain(string person)
    {
        Isolate([person]);
        Release();
        Verify();
    }

    /// <summary>What the procedure asks for while the machine runs for a task.</summary>
    public ImmutableArray<ProtectiveMeasure> MeasuresFor(ServiceTask task) =>
        procedure.EnergisedTasks.First(listed => listed.Task == task).Measures;

    /// <summary>What stands in for the lock while the machine runs.</summary>
    public void GuardBefore(string person, ImmutableArray<ProtectiveMeasure> measures)
    {
        Note(TimelineEventKind.AlternativeMeasuresRecorded, person, 20);
        events[^1] = events[^1] with { Measures = measures };
    }

    /// <summary>From running to standing still, in the middle of a job.</summary>
    public void StopAgain(string person)
    {
        var controls = procedure.Controls;
        NoteIf(controls.ReelDrive, TimelineEventKind.DriveDisengaged, person, 10);
        NoteIf(controls.LoweringUnits, TimelineEventKind.UnitsLowered, person, 12);
        NoteIf(controls.ParkingBrake, TimelineEventKind.ParkingBrakeSet, person, 6);
        Note(TimelineEventKind.MachineShutDown, person, 10);
        NoteIf(controls.Key, TimelineEventKind.KeyRemoved, person, 8);
        Note(TimelineEventKind.SeenAtRest, person, RunDown);
    }

    /// <summary>Hangs the locks of one more person on what is off already.</summary>
    public void HangBeside(string person)
    {
        foreach (var source in Lockable)
        {
            Hang(source, person);
        }
    }

    /// <summary>Takes the locks of a person off.</summary>
    public void TakeOff(string person)
    {
        foreach (var source in Lockable.Where(source => hung.Contains((person, source.Id))).ToList())
        {
            TakeOff(source, person, person);
        }
    }

    /// <summary>Turns the isolators off without hanging anything.</summary>
    public void SwitchOff(string person)
    {
        foreach (var source in Lockable)
        {
            Turn(source, person, IsolatorPosition.Off);
        }
    }

    /// <summary>One entry of what happens between; it draws no chance, so that nothing else of the job changes.</summary>
    public void Note(
        TimelineEventKind kind,
        string person,
        int seconds,
        IEnumerable<string>? others = null,
        int? count = null,
        string? reviewed = null,
        string? reason = null,
        ServiceTask? task = null
    )
    {
        visit.Clock.Pass(seconds);
        Add(kind, person);
        events[^1] = events[^1] with
        {
            Others = [.. (others ?? []).Select(other => new Id<Participant>(other))],
            Count = count,
            Procedure = reviewed,
            Reason = reason,
            Task = task,
        };
    }

    /// <summary>Checks pressure that can come back, once it is due.</summary>
    public void RecheckIfDue()
    {
        var due = procedure
            .Sources.Where(source => source.RecheckMinutes is { } minutes && Waited() > minutes * 0.5)
            .ToList();
        if (due.Count == 0 || visit.Has(SeededFaultKind.RecheckMissed))
        {
            return;
        }

        foreach (var source in due)
        {
            Step(TimelineEventKind.StoredEnergyRechecked, First, 30, source: source.Id);
            events[^1] = events[^1] with { Pressure = source.RecheckLimit is null ? null : Nothing };
        }

        checkedAt = visit.Clock.Moment;
    }

    public void ClearBlockage()
    {
        var byHand = visit.Has(SeededFaultKind.BlockageClearedByHand);
        Step(
            byHand ? TimelineEventKind.BlockageClearedByHand : TimelineEventKind.BlockageClearedWithTool,
            First,
            240,
            method: byHand ? "pulled the branch out" : "branch cut and levered out with a bar"
        );
    }

    public void FindDefect() =>
        Step(
            TimelineEventKind.SafetyDefectFound,
            First,
            30,
            method: "deflector plate cracked at its lower bolt"
        );

    public void CloseDefect() =>
        Step(
            TimelineEventKind.SafetyDefectClosed,
            First,
            300,
            method: "deflector plate replaced, bolts torqued"
        );

    /// <summary>Everything from hands off the unit to the machine back with its operator.</summary>
    public void HandBack()
    {
        foreach (var person in visit.IsInShifts ? visit.Crew.Skip(1) : visit.Crew)
        {
            Step(TimelineEventKind.WorkStopped, person, 8);
        }

        if (IsPlainBench)
        {
            return;
        }

        if (!visit.Has(SeededFaultKind.GuardsNotRecorded))
        {
            Step(TimelineEventKind.GuardsRefitted, Last, 60);
        }

        Step(TimelineEventKind.AreaInspected, Last, 40);
        Step(TimelineEventKind.PeopleClearChecked, Last, 15);
        if (visit.Crew.Length > 1 && !visit.IsInShifts)
        {
            Note(TimelineEventKind.ExposureChecked, Last, 20, visit.Crew);
        }

        TakeLocksOff();
        SwitchOn(Last);
        if (IsOnBench)
        {
            return;
        }

        Note(TimelineEventKind.RemovalNotified, Last, 40, [visit.Plan.Machine.Operator]);
        Step(TimelineEventKind.MachineStarted, Last, 45);
        Step(TimelineEventKind.CutOutsProved, Last, 50);
        Step(TimelineEventKind.HandedBack, Last, 90);
    }

    /// <summary>The timeline as it came in.</summary>
    public ImmutableArray<TimelineEvent> Written() => EntryReceipt.Of(events, visit);

    private void Stop()
    {
        var controls = procedure.Controls;
        StepIf(controls.ReelDrive, TimelineEventKind.DriveDisengaged, 10);
        StepIf(controls.LoweringUnits, TimelineEventKind.UnitsLowered, 12);
        StepIf(controls.ParkingBrake, TimelineEventKind.ParkingBrakeSet, 6);
        Step(TimelineEventKind.MachineShutDown, First, 10);
        StepIf(controls.Key, TimelineEventKind.KeyRemoved, 8);
        Step(TimelineEventKind.SeenAtRest, First, RunDown);
    }

    /// <summary>Who is told, what is gone through and who is in charge, before anything is switched off.</summary>
    private void Announce()
    {
        Note(TimelineEventKind.AffectedNotifiedBefore, First, 30, [visit.Plan.Machine.Operator]);
        Note(TimelineEventKind.EnergyReviewed, First, 45, reviewed: procedure.Id.Text);
        if (visit.Crew.Length > 1 && !visit.IsInShifts)
        {
            Note(TimelineEventKind.PrimaryAssigned, First, 15, [First], visit.Crew.Length);
        }
    }

    private void Isolate(ImmutableArray<string> crew)
    {
        foreach (var source in procedure.Sources.Where(source => source.Isolator is not null))
        {
            if (!source.Lockable)
            {
                Step(TimelineEventKind.PlugRemoved, First, 25, source: source.Id);
                Step(TimelineEventKind.PlugControlConfirmed, First, 10, source: source.Id);
                HangTag(source);
                continue;
            }

            Turn(source, crew[0], IsolatorPosition.Off);
            foreach (var person in crew.Where(_ => !visit.Has(SeededFaultKind.NoLock)))
            {
                Hang(source, person);
            }
        }
    }

    private void Turn(EnergySource source, string person, IsolatorPosition position) =>
        Step(
            TimelineEventKind.IsolatorOperated,
            person,
            position is IsolatorPosition.Off ? 30 : 15,
            source: source.Id,
            isolator: source.Isolator,
            position: position
        );

    private void Hang(EnergySource source, string person)
    {
        Step(
            TimelineEventKind.LockApplied,
            person,
            25,
            source: source.Id,
            device: LockOf(person),
            position: IsolatorPosition.Off
        );
        hung.Add((person, source.Id));
    }

    /// <summary>A plug lead takes no lock: the tag hangs on the lead where a lock would.</summary>
    private void HangTag(EnergySource source)
    {
        Note(TimelineEventKind.TagApplied, First, 15);
        events[^1] = events[^1] with
        {
            Source = new SourceReference.One(source.Id),
            Lock = new Id<LockDevice>(TagOf(First)),
            AtLockPoint = true,
            Position = IsolatorPosition.Off,
            ExtraMeasure = "plug lead in the pocket of whoever works",
        };
        hung.Add((First, source.Id));
    }

    private void TakeTagOff(EnergySource source)
    {
        Note(TimelineEventKind.TagRemoved, First, 10);
        events[^1] = events[^1] with
        {
            Source = new SourceReference.One(source.Id),
            Lock = new Id<LockDevice>(TagOf(First)),
        };
        hung.Remove((First, source.Id));
    }

    private void TakeOff(EnergySource source, string owner, string hand)
    {
        Step(TimelineEventKind.LockRemoved, hand, 20, source: source.Id, device: LockOf(owner));
        hung.Remove((owner, source.Id));
    }

    private void HoldUnit()
    {
        Step(TimelineEventKind.UnitSupported, First, 60);
        Step(TimelineEventKind.ReelWedged, First, 20);
    }

    private void Release()
    {
        if (IsOnBench)
        {
            HoldUnit();
        }

        foreach (var source in procedure.Sources.Where(source => source.Stored))
        {
            if (source.Id.Text is "reel_rotation")
            {
                Step(TimelineEventKind.ReelWedged, First, 20);
            }

            var how = Releases.First(release => release.Source == source.Id.Text).How;
            Step(TimelineEventKind.StoredEnergyReleased, First, 25, source: source.Id, method: how);
        }
    }

    private void Verify() =>
        Step(
            TimelineEventKind.IsolationVerified,
            First,
            35,
            all: true,
            method: "start attempt with people clear, controls back to neutral; nothing moves"
        );

    private void TakeLocksOff()
    {
        foreach (var source in procedure.Sources.Where(source => source.Isolator is not null))
        {
            foreach (var person in visit.Crew.Where(person => hung.Contains((person, source.Id))))
            {
                if (source.Lockable)
                {
                    var hand = visit.Has(SeededFaultKind.LockTakenOffByAnother) ? "lead-01" : person;
                    TakeOff(source, person, hand);
                }
                else
                {
                    TakeTagOff(source);
                }
            }
        }
    }

    /// <summary>Turns the isolators on again.</summary>
    public void SwitchOn(string person)
    {
        foreach (var source in Lockable)
        {
            Turn(source, person, IsolatorPosition.On);
        }
    }

    private void NoteIf(bool isThere, TimelineEventKind kind, string person, int seconds)
    {
        if (isThere)
        {
            Note(kind, person, seconds);
        }
    }

    private void StepIf(bool isThere, TimelineEventKind kind, int seconds)
    {
        if (isThere)
        {
            Step(kind, First, seconds);
        }
    }

    private void Step(
        TimelineEventKind kind,
        string person,
        int seconds,
        Id<EnergySource>? source = null,
        bool all = false,
        string? method = null,
        string? isolator = null,
        IsolatorPosition? position = null,
        string? device = null
    )
    {
        visit.Clock.Pass(IsHurried(kind) ? 0 : seconds + visit.Chance.Between(0, seconds / 2));
        Add(kind, person);
        events[^1] = events[^1] with
        {
            Source =
                all ? new SourceReference.All()
                : source is { } id ? new SourceReference.One(id)
                : null,
            Lock = device is null ? null : new Id<LockDevice>(device),
            Isolator = isolator,
            Position = position,
            Method = method,
        };
    }

    private void Add(TimelineEventKind kind, string person) =>
        events.Add(
            new()
            {
                Kind = kind,
                At = visit.Clock.Now,
                Actor = new(person),
                Device = device,
                Sequence = ++sequence,
            }
        );

    /// <summary>Tapped through on the way back to the mess room.</summary>
    private bool IsHurried(TimelineEventKind kind) =>
        visit.Has(SeededFaultKind.BurstOfSteps)
        && kind
            is TimelineEventKind.LockApplied
                or TimelineEventKind.StoredEnergyReleased
                or TimelineEventKind.IsolationVerified;

    private double Waited() => (visit.Clock.Moment - checkedAt).TotalMinutes;

    private static string TagOf(string person) => $"T-{person[^1]}1";

    private static string LockOf(string person) =>
        string.Equals(person, "lead-01", StringComparison.Ordinal) ? "L-61" : $"L-{person[^1]}1";
}
