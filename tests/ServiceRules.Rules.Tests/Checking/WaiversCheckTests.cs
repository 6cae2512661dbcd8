using ServiceRules.Domain.Site;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Rules.Tests.Checking;

public sealed class WaiversCheckTests
{
    private static readonly Waiver Given = new(
        SoundLibrary.Limit.Id.Text,
        "U-1",
        new("lead-01"),
        "trial",
        new(2026, 4, 1),
        new(2026, 4, 7)
    );

    [Fact]
    public void Of_WaiverOfARuleThatHolds_TellsNothing() => Assert.Empty(Told(Given));

    [Fact]
    public void Of_WaiverOfARuleThatStops_IsAnError() =>
        Assert.Equal(
            (DiagnosticCode.StopWaived, DiagnosticLevel.Error, "/waivers/0/rule"),
            Assert.Single(Told(Given with { Rule = SoundLibrary.Step.Id.Text }))
        );

    [Fact]
    public void Of_RuleWaivedTwiceOnTheSameDays_IsAnErrorAtTheSecond()
    {
        Waiver[] again =
        [
            Given,
            Given with
            {
                Unit = null,
            },
            Given with
            {
                From = new(2026, 4, 7),
                Until = new(2026, 4, 30),
            },
        ];

        Assert.All(
            again,
            one =>
                Assert.Equal(
                    (DiagnosticCode.WaivedTwice, DiagnosticLevel.Error, "/waivers/1"),
                    Assert.Single(Told(Given, one))
                )
        );
    }

    [Fact]
    public void Of_OtherDaysUnitsOrRules_TellsNothing()
    {
        Waiver[] apart =
        [
            Given with
            {
                From = new(2026, 4, 8),
                Until = new(2026, 4, 30),
            },
            Given with
            {
                Unit = "U-2",
            },
            Given with
            {
                Rule = SoundLibrary.Height.Id.Text,
            },
        ];

        Assert.All(apart, one => Assert.Empty(Told(Given, one)));
    }

    /// <summary>Heights and tolerances are for whom the site lets release.</summary>
    [Fact]
    public void Of_OrderBySomebodyWhoMayNotRelease_IsAnError()
    {
        var told = PackCheck.Of(
            SoundLibrary.Sound with
            {
                People = [new(new(new("lead-01"), true, null, null), "site/registers.json", "/people/0")],
            }
        );

        Assert.Contains(
            told,
            one =>
                one is { Code: DiagnosticCode.MayNotRelease, Level: DiagnosticLevel.Error, Pointer: "/by" }
                && one.File == "site/setting-orders/S-1.json"
        );
    }

    private static IEnumerable<(string Code, DiagnosticLevel Level, string Pointer)> Told(
        params Waiver[] waivers
    ) =>
        PackCheck
            .Of(
                SoundLibrary.Sound with
                {
                    Waivers =
                    [
                        .. waivers.Select(
                            (waiver, index) =>
                                new Placed<Waiver>(
                                    waiver,
                                    "site/registers.json",
                                    FormattableString.Invariant($"/waivers/{index}")
                                )
                        ),
                    ],
                }
            )
            .Where(one => one.Code is DiagnosticCode.StopWaived or DiagnosticCode.WaivedTwice)
            .Select(one => (one.Code, one.Level, one.Pointer));
}
