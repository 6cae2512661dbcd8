using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>A reel that goes out of service is not set up as a worn one.</summary>
public class ReelPastServiceTests
{
    [Theory]
    [InlineData("113.0 mm", true)]
    [InlineData("121.0 mm", false)]
    public void Evaluate_WornReel_IsReplacedBelowItsServiceLimit(string read, bool replaced)
    {
        var worn = new Check.LimitOnQuantity(
            MeasuredQuantity.ReelDiameter,
            LimitSource.WornBelow,
            CheckedPlaces.Stations
        );
        var sheet = Sheet with
        {
            Quantities =
            [
                .. Sheet.Quantities.Where(each => each.Quantity is not MeasuredQuantity.ReelDiameter),
                new()
                {
                    Quantity = MeasuredQuantity.ReelDiameter,
                    Lower = D("114 mm"),
                    WornBelow = D("4.8 in", "122 mm"),
                    Basis = Sheet.Basis,
                },
            ],
        };
        var outcome = Judge(
            worn,
            FrameBuilder.Build(
                Record(Unit(Measured(MeasuredQuantity.ReelDiameter, "middle", read))),
                Context,
                Book(sheet)
            )
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.StartsWith(
            replaced ? "replace the reel: " : "set the bedknife to its position for a worn reel",
            Assert.IsType<Remedy.Act>(outcome.Remedy).What,
            StringComparison.Ordinal
        );
    }
}
