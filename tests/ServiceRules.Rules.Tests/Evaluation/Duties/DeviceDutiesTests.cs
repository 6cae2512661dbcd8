using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;
using static ServiceRules.Rules.Tests.Evaluation.Duties.Registers;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

public sealed class DeviceDutiesTests
{
    private static SafetyCase Locks(params RegisteredLock[] locks) => InOrder with { Locks = [.. locks] };

    [Theory]
    [InlineData(EnergyDuty.DeviceForLockoutOnly)]
    [InlineData(EnergyDuty.DeviceOfSiteStyle)]
    [InlineData(EnergyDuty.DeviceShowsOwner)]
    public void Judge_OwnRegisteredLocks_IsMet(EnergyDuty duty) =>
        Assert.Equal(Verdict.Met, InOrder.Verdict(duty));

    [Theory]
    [InlineData("lockout", Verdict.Met)]
    [InlineData("Lockout", Verdict.Met)]
    [InlineData("tool cabinet", Verdict.NotMet)]
    public void Judge_RegisteredUse_IsLockout(string use, Verdict expected) =>
        Assert.Equal(
            expected,
            Locks(Red("L-11", "tech-01"), Red("L-12", "tech-01") with { Use = use })
                .Verdict(EnergyDuty.DeviceForLockoutOnly)
        );

    [Fact]
    public void Judge_LockThatTheRegisterDoesNotHave_IsNotForLockoutAndShowsNobody()
    {
        var job = Locks(Red("L-11", "tech-01"));

        Assert.Equal(Verdict.NotMet, job.Verdict(EnergyDuty.DeviceForLockoutOnly));
        Assert.Equal(Verdict.Unproven, job.Verdict(EnergyDuty.DeviceShowsOwner));
    }

    [Fact]
    public void Judge_OtherStyle_IsNotMetAndUnsaidIsUnproven()
    {
        Assert.Equal(
            Verdict.NotMet,
            Locks(Red("L-11", "tech-01"), Red("L-12", "tech-01") with { Style = "brass" })
                .Verdict(EnergyDuty.DeviceOfSiteStyle)
        );
        Assert.Equal(
            Verdict.Unproven,
            Locks(Red("L-11", "tech-01"), Red("L-12", "tech-01") with { Style = null })
                .Verdict(EnergyDuty.DeviceOfSiteStyle)
        );
    }

    [Theory]
    [InlineData("red", Verdict.Met)]
    [InlineData("yellow", Verdict.NotMet)]
    [InlineData(null, Verdict.Met)]
    public void Judge_Tag_IsOfTheSitesStyleWhereTheRegisterSaysHowItLooks(string? style, Verdict expected) =>
        Assert.Equal(
            expected,
            Locks(
                    Red("L-11", "tech-01"),
                    Red("L-12", "tech-01"),
                    new(new("T-1"), null) { IsTag = true, Style = style }
                )
                .And("08:08 tag_applied tech-01 source=gravity lock=T-1")
                .Verdict(EnergyDuty.DeviceOfSiteStyle)
        );

    [Fact]
    public void Judge_IssuedToAnother_IsNotMet() =>
        Assert.Equal(
            Verdict.NotMet,
            Locks(Red("L-11", "tech-01"), Red("L-12", "tech-02")).Verdict(EnergyDuty.DeviceShowsOwner)
        );

    [Fact]
    public void Judge_JobLock_ShowsOnlyWhoIsNamedInCharge()
    {
        var job = Locks(Red("L-11", null), Red("L-12", null));

        Assert.Equal(Verdict.NotMet, job.Verdict(EnergyDuty.DeviceShowsOwner));
        Assert.Equal(
            Verdict.Met,
            job.And("07:50 primary_assigned lead-01 others=tech-01").Verdict(EnergyDuty.DeviceShowsOwner)
        );
        Assert.Equal(
            Verdict.NotMet,
            job.And("07:50 primary_assigned lead-01 others=tech-02").Verdict(EnergyDuty.DeviceShowsOwner)
        );
    }

    [Theory]
    [InlineData("Do not operate", Verdict.Met)]
    [InlineData(" ", Verdict.NotMet)]
    [InlineData(null, Verdict.NotMet)]
    public void Judge_Tag_HasALegend(string? legend, Verdict expected) =>
        Assert.Equal(
            expected,
            Locks(
                    Red("L-11", "tech-01"),
                    Red("L-12", "tech-01"),
                    new(new("T-1"), null) { IsTag = true, Legend = legend }
                )
                .And("08:08 tag_applied tech-01 source=gravity lock=T-1")
                .Verdict(EnergyDuty.TagWarns)
        );

    [Fact]
    public void Judge_HungByABystander_IsNotMetOnceTheJobIsClosed()
    {
        var job = InOrder.And("08:08 lock_applied lead-01 source=gravity lock=L-61") with
        {
            Locks = [.. InOrder.Locks, Red("L-61", "lead-01")],
        };

        Assert.Equal(Verdict.NotMet, job.Verdict(EnergyDuty.OnlyAuthorisedHang));
        Assert.Equal(
            Verdict.Unproven,
            (job with { IsSignedOff = false }).Verdict(EnergyDuty.OnlyAuthorisedHang)
        );
        Assert.Equal(
            Verdict.Met,
            job.And("07:50 primary_assigned lead-01 others=lead-01").Verdict(EnergyDuty.OnlyAuthorisedHang)
        );
    }

    [Fact]
    public void Judge_HungByWhoIsNotAuthorised_IsNotMet() =>
        Assert.Equal(
            Verdict.NotMet,
            InOrder
                .Knowing("tech-01", person => person with { Authorised = false })
                .Verdict(EnergyDuty.OnlyAuthorisedHang)
        );

    [Fact]
    public void Judge_NothingHung_AsksNothingOfDevices()
    {
        var job = InOrder.Without(TimelineEventKind.LockApplied).Without(TimelineEventKind.LockRemoved);

        Assert.Equal(Verdict.NotApplicable, job.Verdict(EnergyDuty.DeviceForLockoutOnly));
        Assert.Equal(Verdict.NotApplicable, job.Verdict(EnergyDuty.DeviceShowsOwner));
        Assert.Equal(Verdict.NotApplicable, job.Verdict(EnergyDuty.TagWarns));
    }
}
