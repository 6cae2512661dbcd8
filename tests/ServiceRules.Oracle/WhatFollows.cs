using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using Does = ServiceRules.Domain.Verdicts.Effect;

namespace ServiceRules.Oracle;

/// <summary>What verdicts come to: effects, and the dispositions of units, set and job.</summary>
public static class WhatFollows
{
    /// <summary>What a verdict does to its subject.</summary>
    public static Effect Effect(
        Rule rule,
        Verdict verdict,
        string? unit,
        ServiceRecord record,
        AssessmentContext context
    )
    {
        if (verdict is Verdict.Met or Verdict.NotApplicable)
        {
            return Does.None;
        }

        if (rule.Scope == RuleScope.Programme)
        {
            // What is wrong with the site's papers is told, and holds no machine.
            return Does.Advise;
        }

        // What the tasks do not ask for was looked at only because it was read: for want of proof it holds nothing.
        var effect =
            verdict == Verdict.NotMet ? Breach(rule.Severity)
            : Applies.Asked(rule, record, unit) ? Doubt(rule, unit, record, context)
            : Does.Advise;
        return effect == Does.Hold && IsWaived(rule, unit, record, context) ? Does.Advise : effect;
    }

    /// <summary>Whether the tasks ask for a rule; what they do not ask for is no judgement that lets a unit out.</summary>
    public static bool IsAsked(Rule rule, Subject subject, ServiceRecord record) =>
        Applies.Asked(rule, record, subject is Subject.Unit on ? on.Id.Text : null);

    /// <summary>Disposition of a unit: the worst of its own, and whatever makes the whole unsafe.</summary>
    public static Disposition Unit(
        IReadOnlyCollection<(Effect Effect, Severity Severity, Subject Subject, Verdict Verdict)> findings,
        Id<UnitWork> unit,
        ServiceRecord record
    )
    {
        var worst = IsJudged(findings, unit) ? AtBest(record) : Disposition.Hold;
        foreach (var (effect, severity, subject, _) in findings)
        {
            bool mine = subject is Subject.Unit own && own.Id == unit;
            bool unsafeWhole = subject is not Subject.Unit && severity == Severity.Stop;
            if (mine || unsafeWhole)
            {
                worst = Worse(worst, Of(effect));
            }
        }

        return worst;
    }

    /// <summary>Disposition of the units together: the worst of the set, of every unit, and of unsafe work on the job.</summary>
    public static Disposition Set(
        IReadOnlyCollection<(Effect Effect, Severity Severity, Subject Subject, Verdict Verdict)> findings,
        ServiceRecord record
    )
    {
        var worst = record.Units.All(u => IsJudged(findings, u.Id)) ? AtBest(record) : Disposition.Hold;
        foreach (var (effect, severity, subject, _) in findings)
        {
            if (subject is not Subject.Job || severity == Severity.Stop)
            {
                worst = Worse(worst, Of(effect));
            }
        }

        return worst;
    }

    /// <summary>Disposition of the job: the worst of everything, and never release while it is open.</summary>
    public static Disposition Job(
        IReadOnlyCollection<(Effect Effect, Severity Severity, Subject Subject, Verdict Verdict)> findings,
        ServiceRecord record
    )
    {
        bool judged = !record.Units.IsEmpty && record.Units.All(u => IsJudged(findings, u.Id));
        bool done = record.Tasks.All(task =>
            record.Units.Any(u => (u.Tasks.IsEmpty ? record.Tasks : u.Tasks).Contains(task))
        );
        var worst = judged && done ? AtBest(record) : Disposition.Hold;
        foreach (var (effect, _, _, _) in findings)
        {
            worst = Worse(worst, Of(effect));
        }

        return worst;
    }

    /// <summary>A unit of which no rule has anything to say is not released.</summary>
    private static bool IsJudged(
        IEnumerable<(Effect Effect, Severity Severity, Subject Subject, Verdict Verdict)> findings,
        Id<UnitWork> unit
    ) =>
        findings.Any(f =>
            f.Subject is Subject.Unit own && own.Id == unit && f.Verdict != Verdict.NotApplicable
        );

    /// <summary>An open job releases nothing.</summary>
    private static Disposition AtBest(ServiceRecord record) =>
        record.SignOff is null ? Disposition.Hold : Disposition.Release;

    private static Effect Breach(Severity severity) =>
        severity switch
        {
            Severity.Stop => Does.Stop,
            Severity.Hold => Does.Hold,
            _ => Does.Advise,
        };

    private static Effect Doubt(Rule rule, string? unit, ServiceRecord record, AssessmentContext context)
    {
        if (rule.Severity == Severity.Advise || rule.Unproven == UnprovenPolicy.Advise)
        {
            return Does.Advise;
        }

        if (
            rule.Unproven == UnprovenPolicy.SecondPerson
            && record.Releases.Any(r =>
                r.Rule == rule.Id.Text
                && (r.Unit is not { } named || named.Text == unit)
                && MayLetOut(r.By, record, context)
            )
        )
        {
            return Does.Advise;
        }

        return rule.Severity == Severity.Stop && record.SignOff is null && HandsGoInNext(rule.Check)
            ? Does.Stop
            : Does.Hold;
    }

    private static bool HandsGoInNext(Check check) =>
        check
            is Check.RequiredEvent { When: RequiredWhen.BeforeWork }
                or Check.OrderOfEvents
                or Check.Protection
                or Check.Credibility { Of: CredibilityOf.LockInTwoPlaces }
                or Check.EnergyControl
                {
                    Of: not (
                        EnergyDuty.AreaInspected
                        or EnergyDuty.PeopleClear
                        or EnergyDuty.GroupAccounted
                        or EnergyDuty.DeviceOffByOwner
                        or EnergyDuty.AffectedToldAfter
                        or EnergyDuty.ToldBeforeStart
                        or EnergyDuty.OwnerAbsent
                        or EnergyDuty.OwnerSought
                        or EnergyDuty.OwnerTold
                        or EnergyDuty.OutsideDeviceLeftAlone
                        or EnergyDuty.BlockageCheckedAfter
                    )
                };

    private static bool IsWaived(Rule rule, string? unit, ServiceRecord record, AssessmentContext context) =>
        rule.Severity != Severity.Stop
        && context.Waivers.Any(w =>
            w.Rule == rule.Id.Text
            && (w.Unit is null || w.Unit == unit)
            && w.From <= record.Date
            && record.Date <= w.Until
            && MayLetOut(w.By, record, context)
        );

    private static bool MayLetOut(Id<Participant> person, ServiceRecord record, AssessmentContext context) =>
        !HasHandsIn(person, record) && context.People.Any(p => p.Id == person && p.MayRelease);

    private static bool HasHandsIn(Id<Participant> person, ServiceRecord record) =>
        record.People.Any(p => p.Id == person && p.Role is JobRole.Performs or JobRole.Assists);

    private static Disposition Of(Effect effect) =>
        effect switch
        {
            Does.Stop => Disposition.Stop,
            Does.Hold => Disposition.Hold,
            _ => Disposition.Release,
        };

    private static Disposition Worse(Disposition left, Disposition right) => left > right ? left : right;
}
