using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>Paragraphs (c)(4) and (c)(6): the written procedure and its yearly inspection.</summary>
internal static class ProgrammeRows
{
    public static Possible Written(Story story)
    {
        var excepted = ScopeRows.Undocumented(story);
        if (story.Claims(ExemptionKind.UndocumentedProcedure).Any() && excepted != Possible.NotMet)
        {
            return excepted.HasFlag(Possible.NotMet) ? Possible.Any : Possible.Any & ~Possible.NotMet;
        }

        bool cited = story
            .Steps.Where(s => s.Kind == TimelineEventKind.EnergyReviewed)
            .All(s => s.Event.Procedure is null || s.Event.Procedure == story.Procedure?.Id.Text);
        return story.Procedure is not { } procedure ? Possible.NotMet
            : Story.IsCurrent(procedure, story.Day)
                ? Possible.Met.OrStricter(procedure.Until == story.Day || !cited)
            : Possible.NotMet;
    }

    public static Possible CoversSources(Story story)
    {
        if (story.Procedure is not { } procedure)
        {
            return Possible.Any & ~Possible.NotMet;
        }

        if (story.Machine is not { } machine)
        {
            return Possible.Any & ~Possible.NotMet;
        }

        return machine
            .Sources.Select(s =>
                procedure.Sources.FirstOrDefault(p => p.Id == s.Id) is not { } listed ? Possible.NotMet
                : listed.Isolator is null && listed.Release is null ? Possible.Judged
                : listed.Isolator is null && s.Isolator is not null ? Possible.Judged
                : Possible.Met.OrStricter(SaysLess(listed, s))
            )
            .OfAllOrNone();
    }

    /// <summary>The steps of a source rest on what is known of it: a danger left out leaves out its step.</summary>
    private static bool SaysLess(EnergySource listed, EnergySource had) =>
        (had.Lockable && !listed.Lockable)
        || (had.Stored && !listed.Stored)
        || (had.Reaccumulates && !listed.Reaccumulates)
        || (had.RecheckMinutes is { } minutes && !(listed.RecheckMinutes <= minutes));

    public static Possible InspectedWithinTheYear(Story story)
    {
        if (story.Procedure is not { } procedure)
        {
            return Possible.NotApplicable;
        }

        var on = procedure.Inspection?.On ?? procedure.InspectedOn;
        if (on is not { } last)
        {
            return procedure.InspectionDue < story.Day ? Possible.NotMet
                : procedure.InspectionDue is null ? Possible.NotMet
                : Possible.Judged;
        }

        var due = last.AddMonths(12);
        var latest = story.LastDay > story.Record.Date ? story.LastDay : story.Record.Date;
        return story.Record.Date > due ? Possible.NotMet
            : last > story.Record.Date ? Possible.NeverMet
            : Possible.Met.OrStricter(latest > due || procedure.InspectionDue < latest);
    }

    public static Possible InspectorIndependent(Story story) =>
        Inspected(
            story,
            inspection =>
                inspection.Inspector is not { } inspector ? Possible.NeverMet
                : inspection.Users.Contains(inspector) ? Possible.NotMet
                : story.Authority(inspector.Text)
        );

    public static Possible FindingsClosed(Story story) =>
        Inspected(
            story,
            inspection =>
                inspection
                    .Findings.Where(f => f.Raised <= story.LastDay)
                    .Select(f =>
                        f.Closed is { } closed && closed <= story.Day ? Possible.Met
                        : f.Closed <= story.LastDay ? Possible.Met | Possible.NotMet
                        : f.Due is { } due && due >= story.Day ? Possible.Judged
                        : Possible.NotMet
                    )
                    .OfAllOrNone()
        );

    public static Possible ReviewedWithEach(Story story) =>
        Inspected(
            story,
            inspection =>
                story
                    .Workers.Where(w => !story.IsOutside(w))
                    .Select(w =>
                        story.Person(w) is not { } person
                            ? inspection.People.Any(p => p.Text == w)
                                ? Possible.Any & ~Possible.NotMet
                                : Possible.Any
                            : !person.Authorised
                                ? Possible.Any & ~Possible.NotMet
                                : inspection.People.Contains(person.Id)
                                    ? Possible.Any & ~Possible.NotMet
                                    : person.TrainedOn is { } trained && trained <= inspection.On
                                        ? Possible.NotMet
                                        : Possible.Any
                    )
                    .OfAllOrNone()
                    .OrAny(story.MayHaveOtherWorkers)
        );

    public static Possible TagReview(Story story) =>
        Inspected(
            story,
            inspection =>
                !story.UsedTags ? Possible.NotApplicable
                : !story.Steps.Any(tag => IsInsteadOfALock(story, tag)) ? Possible.Any
                : story
                    .Affected.Select(a =>
                        inspection.People.Any(p => p.Text == a)
                            ? Possible.Met.OrStricter(!inspection.TagLimitsReviewed)
                            : Possible.NotMet
                    )
                    .OfAllOrNone()
        );

    public static Possible Certified(Story story)
    {
        if (story.Procedure is not { } procedure)
        {
            return Possible.NotApplicable;
        }

        return procedure.Inspection is not { } inspection ? Possible.Any & ~Possible.Met
            : inspection.Machine is null || inspection.People.IsEmpty || inspection.Inspector is null
                ? Possible.NotMet
            : Possible.Met;
    }

    private static bool IsInsteadOfALock(Story story, Step tag) =>
        tag.Kind == TimelineEventKind.TagApplied
        && story.Isolatable.Any(s =>
            tag.IsOf(s.Id.Text)
            && !story.Steps.Any(other => other.Kind == TimelineEventKind.LockApplied && other.IsOf(s.Id.Text))
        );

    private static Possible Inspected(Story story, Func<ProcedureInspection, Possible> judge) =>
        story.Procedure is not { } procedure ? Possible.NotApplicable
        : procedure.Inspection is { } inspection ? judge(inspection)
        : Possible.Any & ~Possible.NotMet;
}
