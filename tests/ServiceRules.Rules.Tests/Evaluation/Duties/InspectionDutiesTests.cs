using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Duties.Registers;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

public sealed class InspectionDutiesTests
{
    private static readonly EnergyDuty[] OfTheCertificate =
    [
        EnergyDuty.InspectorIndependent,
        EnergyDuty.InspectionFindingsClosed,
        EnergyDuty.InspectionReviewedWithEach,
        EnergyDuty.InspectionCertified,
    ];

    [Fact]
    public void Judge_CompleteCertificate_IsMet() =>
        Assert.All(OfTheCertificate, duty => Assert.Equal(Verdict.Met, InOrder.Verdict(duty)));

    [Fact]
    public void Judge_ADateAlone_ProvesNothingOfTheCertificate()
    {
        var job = InOrder with
        {
            Procedure = InOrder.Procedure! with { Inspection = null, InspectedOn = Day.AddDays(-50) },
        };

        Assert.All(OfTheCertificate, duty => Assert.Equal(Verdict.Unproven, job.Verdict(duty)));
        Assert.Equal(Verdict.Met, job.Verdict(EnergyDuty.ProcedureInspected));
    }

    [Fact]
    public void Judge_NoInspectionAtAll_IsSaidOnce()
    {
        var job = InOrder.Certified(_ => null);

        Assert.All(OfTheCertificate, duty => Assert.Equal(Verdict.NotApplicable, job.Verdict(duty)));
        Assert.Equal(Verdict.NotMet, job.Verdict(EnergyDuty.ProcedureInspected));
    }

    [Fact]
    public void Judge_InspectorUsesTheProcedure_IsNotMet() =>
        Assert.Equal(
            Verdict.NotMet,
            InOrder
                .Certified(one => one with { Inspector = new("tech-01") })
                .Verdict(EnergyDuty.InspectorIndependent)
        );

    [Fact]
    public void Judge_InspectorNotAuthorised_IsNotMet() =>
        Assert.Equal(
            Verdict.NotMet,
            InOrder
                .Knowing("lead-01", person => person with { Authorised = false })
                .Verdict(EnergyDuty.InspectorIndependent)
        );

    [Fact]
    public void Judge_UsersNotNamed_IsNotProven() =>
        Assert.Equal(
            Verdict.Unproven,
            InOrder.Certified(one => one with { Users = [] }).Verdict(EnergyDuty.InspectorIndependent)
        );

    [Theory]
    [InlineData(-40, null, Verdict.NotMet)]
    [InlineData(-40, 0, Verdict.Met)]
    [InlineData(-40, 1, Verdict.NotMet)]
    [InlineData(1, null, Verdict.Met)]
    public void Judge_Finding_IsPutRightByTheDayOfTheJob(int raised, int? closed, Verdict expected)
    {
        var finding = new InspectionFinding(
            "F-1",
            null,
            Day.AddDays(raised),
            Day.AddDays(200),
            closed is { } days ? Day.AddDays(days) : null
        );

        Assert.Equal(
            expected,
            InOrder
                .Certified(one => one with { Findings = [finding] })
                .Verdict(EnergyDuty.InspectionFindingsClosed)
        );
    }

    [Fact]
    public void Judge_NotReviewedWithWhoWorks_IsNotMet() =>
        Assert.Equal(
            Verdict.NotMet,
            InOrder
                .Certified(one => one with { People = [new("op-01")] })
                .Verdict(EnergyDuty.InspectionReviewedWithEach)
        );

    [Theory]
    [InlineData(-50, Verdict.NotMet)]
    [InlineData(-49, Verdict.NotApplicable)]
    [InlineData(-10, Verdict.NotApplicable)]
    public void Judge_AuthorisedOnlySinceTheInspection_NeedsNoReview(int trained, Verdict expected) =>
        Assert.Equal(
            expected,
            InOrder
                .Certified(one => one with { People = [new("op-01")] })
                .Knowing("tech-01", person => person with { TrainedOn = Day.AddDays(trained) })
                .Verdict(EnergyDuty.InspectionReviewedWithEach)
        );

    [Fact]
    public void Judge_FromAnOutsideEmployer_IsForThatEmployerToInspect() =>
        Assert.Equal(
            Verdict.NotApplicable,
            InOrder
                .Certified(one => one with { People = [new("op-01")] })
                .Knowing("tech-01", person => person with { Employer = Employer.Outside })
                .Verdict(EnergyDuty.InspectionReviewedWithEach)
        );

    [Theory]
    [InlineData("machine")]
    [InlineData("people")]
    [InlineData("inspector")]
    public void Judge_CertificateLacksAPart_NamesIt(string part)
    {
        var outcome = InOrder
            .Certified(one =>
                part switch
                {
                    "machine" => one with { Machine = null },
                    "people" => one with { People = [] },
                    _ => one with { Inspector = null },
                }
            )
            .Judge(EnergyDuty.InspectionCertified);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains($"the {part}", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Judge_TagBesideALock_TakesNoLocksPlace()
    {
        var beside = InOrder
            .And("08:08 tag_applied tech-01 source=engine_start lock=T-1")
            .Certified(one => one with { People = [] });

        Assert.Equal(Verdict.NotApplicable, beside.Verdict(EnergyDuty.InspectionTagReview));
    }

    [Fact]
    public void Judge_TagInPlaceOfALock_AffectedPeopleWereReviewed()
    {
        var tagged = InOrder.And("08:08 tag_applied tech-01 source=gravity lock=T-1");

        Assert.Equal(Verdict.Met, tagged.Verdict(EnergyDuty.InspectionTagReview));
        Assert.Equal(
            Verdict.NotMet,
            tagged
                .Certified(one => one with { People = [new("tech-01")] })
                .Verdict(EnergyDuty.InspectionTagReview)
        );
        Assert.Equal(
            Verdict.Unproven,
            tagged
                .Certified(one => one with { TagLimitsReviewed = false })
                .Verdict(EnergyDuty.InspectionTagReview)
        );
    }
}
