using ServiceRules.Domain.Timeline;

namespace ServiceRules.Application.Demo;

/// <summary>What happens in the middle of a job: a run to hear the contact, a change of shifts, a lock off and on.</summary>
internal static class MidJob
{
    public static void Happen(SafetyLog safety, Visit visit)
    {
        switch (visit.Plan.Fault, visit.Plan.Oddity)
        {
            case (SeededFaultKind.LockOffMidJob, _):
                LockOffAndOn(safety, visit);
                break;
            case (SeededFaultKind.RunNotRelocked, _):
                Run(safety, visit.Crew[0]);
                safety.SwitchOff(visit.Crew[0]);
                safety.StartWork(visit.Crew[0]);
                break;
            case (_, OddityKind.RunAndRelocked):
                Run(safety, visit.Crew[0]);
                safety.MakeDeadAgain(visit.Crew[0]);
                safety.StartWork(visit.Crew[0]);
                break;
            case (SeededFaultKind.ShiftGap, _):
                Gap(safety, visit);
                break;
            case (_, OddityKind.ShiftHandedOver):
                HandOver(safety, visit);
                break;
            default:
                break;
        }
    }

    /// <summary>The lock was wanted elsewhere for four minutes.</summary>
    private static void LockOffAndOn(SafetyLog safety, Visit visit)
    {
        safety.TakeOff(visit.Crew[0]);
        visit.Clock.Pass(240);
        safety.HangBeside(visit.Crew[0]);
    }

    private static void Run(SafetyLog safety, string person)
    {
        safety.Note(TimelineEventKind.WorkStopped, person, 10);
        safety.Note(TimelineEventKind.AreaInspected, person, 30);
        safety.Note(TimelineEventKind.PeopleClearChecked, person, 15);
        safety.GuardBefore(
            person,
            [
                ProtectiveMeasure.GuardsInPlace,
                ProtectiveMeasure.SingleOperatorControl,
                ProtectiveMeasure.ExclusionZone,
                ProtectiveMeasure.EyeProtection,
            ]
        );
        safety.TakeOff(person);
        safety.SwitchOn(person);
        safety.Note(
            TimelineEventKind.TestEnergised,
            person,
            30,
            reason: "to hear the contact over the width"
        );
        safety.Note(TimelineEventKind.TestEnded, person, 90);
        safety.StopAgain(person);
    }

    /// <summary>Off at noon, and nobody's lock on it until the next shift came.</summary>
    private static void Gap(SafetyLog safety, Visit visit)
    {
        safety.Note(TimelineEventKind.WorkStopped, visit.Crew[0], 10);
        safety.TakeOff(visit.Crew[0]);
        visit.Clock.Pass(1_800);
        safety.HangBeside(visit.Crew[1]);
        safety.StartWork(visit.Crew[1]);
    }

    private static void HandOver(SafetyLog safety, Visit visit)
    {
        safety.HangBeside(visit.Crew[1]);
        safety.Note(TimelineEventKind.HandoverBriefed, visit.Crew[0], 120, [visit.Crew[1]]);
        safety.Note(TimelineEventKind.WorkStopped, visit.Crew[0], 10);
        safety.TakeOff(visit.Crew[0]);
        safety.StartWork(visit.Crew[1]);
    }
}
