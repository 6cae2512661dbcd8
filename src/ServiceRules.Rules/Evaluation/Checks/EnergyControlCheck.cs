using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>A duty of controlling energy: each is judged by itself, on the same reading of the job.</summary>
internal static class EnergyControlCheck
{
    public static CheckOutcome Evaluate(Check.EnergyControl check, Rule rule, JobFrame frame)
    {
        var duty = DutyFrame.Of(rule, frame);
        return Suppression.Of(check.Of, duty) ?? DutyTable.Of(check.Of).Judge(duty);
    }
}
