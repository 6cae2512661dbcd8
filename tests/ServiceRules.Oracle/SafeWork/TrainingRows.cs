using ServiceRules.Domain.Site;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>Paragraph (c)(7): training and instruction.</summary>
internal static class TrainingRows
{
    public static Possible InEnergies(Story story) =>
        story
            .Steps.Where(s => s.IsDeviceOn)
            .Select(s => s.By)
            .Distinct()
            .Select(who =>
            {
                if (story.Person(who) is not { } person)
                {
                    return Possible.NeverMet;
                }

                if (person.TrainedOn is not { } trained || trained > story.Day)
                {
                    return Possible.NotMet;
                }

                var sum = person.StatesCovers
                    ? story.Sources.All(s => person.Covers.Contains(s.Id))
                        ? Possible.Met
                        : Possible.NotMet
                    : Possible.NeverNotMet;
                return sum.OrStricter(person.TrainedUntil < story.LastDay);
            })
            .OfAllOrNone();

    public static Possible AffectedInstructed(Story story) =>
        story
            .Affected.Select(who =>
                story.Person(who) is not { } person ? Possible.NeverMet
                : person.InstructedOn is { } on && on <= story.Day ? Possible.Met
                : Possible.NotMet
            )
            .OfAllOrNone();

    public static Possible AfterChange(Story story)
    {
        if (story.Procedure is not { ControlStepsChanged: true, From: { } changed })
        {
            return Possible.Any & ~Possible.NotMet;
        }

        return story
            .Workers.Concat(story.Touches.Select(touch => touch.By))
            .Distinct()
            .Select(who =>
                story.Person(who) is not { } person ? Possible.Judged
                : person.TrainedOn is { } trained
                    ? trained >= changed ? Possible.Met
                        : person.Authorised && person.Employer == Employer.Site ? Possible.NotMet
                        : Possible.Judged
                : person.Authorised ? Possible.NeverMet
                : person.InstructedOn >= changed ? Possible.Any & ~Possible.NotMet
                : Possible.Any
            )
            .OfAllOrNone()
            .OrAny(story.MayHaveOtherWorkers);
    }

    public static Possible AfterFinding(Story story) =>
        (story.Procedure?.Inspection?.Findings ?? [])
            .Where(f => f.About is not null && f.Raised <= story.LastDay)
            .Select(f =>
            {
                string who = f.About!.Value.Text;
                bool later =
                    story.Person(who)?.TrainedOn is { } trained && trained > f.Raised && trained <= story.Day;
                return later ? Possible.Met
                    : story.Person(who) is null ? Possible.Judged
                    : story.Workers.Contains(who) && f.Raised <= story.Day ? Possible.NotMet
                    : Possible.Any;
            })
            .OfAllOrNone();

    public static Possible Certified(Story story) =>
        story
            .Workers.Concat(story.Steps.Where(s => s.IsDeviceOn).Select(s => s.By))
            .Distinct()
            .Select(who =>
                story.Person(who) is not { } person ? Possible.Judged
                : person.TrainedOn is not null ? Possible.Met
                : person.Authorised ? Possible.NotMet
                : Possible.Any & ~Possible.NotMet
            )
            .Concat(
                story.Affected.Select(who =>
                    story.Person(who) is not { } person ? Possible.Judged
                    : person.InstructedOn is null ? Possible.NotMet
                    : Possible.Met
                )
            )
            .OfAllOrNone()
            .OrAny(story.MayHaveOtherWorkers);
}
