using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>What feelers that bound a twist on one side leave of it, in words that mean something at the plate.</summary>
public class TwistWordsTests
{
    private static CheckOutcome On(params BenchEntry[] entries) =>
        Judge(
            new Check.Twist(),
            FrameBuilder.Build(
                Record(Unit(entries)),
                Context,
                Book(
                    Sheet with
                    {
                        Quantities =
                        [
                            .. Sheet.Quantities,
                            new()
                            {
                                Quantity = MeasuredQuantity.FrontRollerOnPlate,
                                Twist = D("0.003 in", "0.076 mm"),
                                Basis = Sheet.Basis,
                            },
                        ],
                    }
                )
            )
        );

    private static Reading Front(string station, string feeler, bool passes) =>
        Feeler(station, feeler, passes) with
        {
            Quantity = MeasuredQuantity.FrontRollerOnPlate,
        };

    private static Reading Rear(string station, string feeler, bool passes) =>
        Feeler(station, feeler, passes) with
        {
            Quantity = MeasuredQuantity.RearRollerOnPlate,
        };

    /// <summary>Rear left at least 0.0039 in, the corners beside it less than 0.0011 in each: at least 0.0017 in.</summary>
    [Fact]
    public void Evaluate_OnlyTheRearLeftPasses_NamesItsDiagonalByTheLeast()
    {
        var outcome = On(
            Front("left", "0.001 in", false),
            Front("right", "0.001 in", false),
            Rear("left", "0.004 in", true),
            Rear("right", "0.001 in", false)
        );

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.StartsWith(
            "Roller twist: front right and rear left stand high by at least 0.0017 in, limit 0.003 in either way",
            outcome.Statement,
            StringComparison.Ordinal
        );
    }

    /// <summary>
    /// Rear left between 0.0019 and 0.0026 in, the rest from nothing to less than 0.0011 in: rear left and front right may be high by
    /// 0.0026 + 0.0011 = 0.0037 in, the others by 0.0022 - 0.0019 = 0.0003 in.
    /// </summary>
    [Fact]
    public void Evaluate_EitherDiagonalMayBeHigh_TellsBoth()
    {
        var outcome = On(
            Front("left", "0.001 in", false),
            Front("right", "0.001 in", false),
            Rear("left", "0.002 in", true),
            Rear("left", "0.0025 in", false),
            Rear("right", "0.001 in", false)
        );

        Assert.StartsWith(
            "Roller twist: front right and rear left stand high by less than 0.0037 in, or front left and rear right stand high by less than 0.0003 in, limit 0.003 in either way",
            outcome.Statement,
            StringComparison.Ordinal
        );
    }
}
