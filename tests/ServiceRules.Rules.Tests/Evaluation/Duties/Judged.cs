using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>How tests ask one duty of one timeline.</summary>
internal static class Judged
{
    public static CheckOutcome Duty(this SafetyCase safety, EnergyDuty of) =>
        safety.Judge(new Check.EnergyControl(of));

    /// <summary>The job as it stands, with a rule that asks who may work on it.</summary>
    public static JobFrame OpenJob(this SafetyCase safety) =>
        safety.Frame() with
        {
            Book = new(
                [
                    new()
                    {
                        Id = new("p"),
                        Version = "1",
                        Title = "p",
                        Layer = PackLayer.Base,
                        Rules =
                        [
                            SafetyCase.AnyRule with
                            {
                                Check = new Check.EnergyControl(EnergyDuty.WorkByAuthorised),
                            },
                        ],
                    },
                ],
                []
            ),
        };

    public static Verdict VerdictOf(this SafetyCase safety, EnergyDuty of) => safety.Duty(of).Verdict;
}
