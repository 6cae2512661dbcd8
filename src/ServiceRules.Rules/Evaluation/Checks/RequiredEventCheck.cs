using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>A step stands in the timeline, for each person or source that needs it, before or after hands-on work.</summary>
internal static class RequiredEventCheck
{
    public static CheckOutcome Evaluate(Check.RequiredEvent check, Rule rule, JobFrame frame, UnitFrame? unit)
    {
        if (frame.Procedure is null && AsksTheProcedure(check))
        {
            return TimelineOutcome.NoProcedure(frame);
        }

        if (WhatIsLacking(check.Needs, frame) is { } lacking)
        {
            return TimelineOutcome.NotApplicable(lacking);
        }

        var reading = TimelineReading.Of(frame);
        return check.When == RequiredWhen.BeforeWork
            ? StepsBeforeWork.Judge(check, reading)
            : StepsAfterWork.Judge(check, reading);
    }

    private static bool AsksTheProcedure(Check.RequiredEvent check) =>
        check.Per is RequiredPer.Source or RequiredPer.PersonAndSource
        || check.Needs is not (null or MachineNeed.AffectedPeople);

    private static string? WhatIsLacking(MachineNeed? need, JobFrame frame)
    {
        var controls = frame.Procedure?.Controls;
        var (isThere, lacking) = need switch
        {
            MachineNeed.Key => (controls is { Key: true }, "This machine has no key."),
            MachineNeed.ParkingBrake => (
                controls is { ParkingBrake: true },
                "This machine has no parking brake."
            ),
            MachineNeed.LoweringUnits => (
                controls is { LoweringUnits: true },
                "This machine has no units to lower."
            ),
            MachineNeed.ReelDrive => (
                controls is { ReelDrive: true },
                "This machine has no reel drive to disengage."
            ),
            MachineNeed.IsolatedSource => (
                frame.Procedure?.Sources.Any(source => source.Isolator is not null) ?? false,
                "There is no energy source to switch off here."
            ),
            MachineNeed.StoredSource => (
                frame.Procedure?.Sources.Any(source => source.Stored) ?? false,
                "There is no stored energy here."
            ),
            MachineNeed.AffectedPeople => (
                frame.Record.People.Any(person => person.Role == JobRole.Affected),
                "The record names nobody else who is affected by the job."
            ),
            _ => (true, string.Empty),
        };
        return isThere ? null : lacking;
    }
}
