using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Rules.Tests.Checking;

/// <summary>What the procedure must state of energy that can build up again.</summary>
public class BuildUpStatedTests
{
    [Theory]
    [InlineData(null, null, "how often it is checked, nor how much is too much")]
    [InlineData(null, "5 bar", "how often it is checked")]
    [InlineData(30, null, "how much is too much")]
    public void Of_SourceThatBuildsUpAgain_TellsWhatIsNotStated(int? minutes, string? limit, string unsaid)
    {
        var told = Assert.Single(Told(Source(minutes, limit)));

        Assert.Equal(DiagnosticLevel.Notice, told.Level);
        Assert.Equal("/sources/0", told.Pointer);
        Assert.Equal($"`hydraulic` can build up again, and the procedure does not state {unsaid}", told.What);
    }

    [Fact]
    public void Of_EverythingStated_IsNoProblem() => Assert.Empty(Told(Source(30, "5 bar")));

    [Fact]
    public void Of_SourceThatDoesNotBuildUpAgain_IsNoProblem() =>
        Assert.Empty(Told(Source(null, null) with { Reaccumulates = false }));

    private static IEnumerable<Diagnostic> Told(EnergySource source) =>
        PackCheck
            .Of(
                SoundLibrary.Sound with
                {
                    Procedures = [new(SoundLibrary.Procedure with { Sources = [source] }, "p.json", "")],
                }
            )
            .Where(told => told.Code == DiagnosticCode.BuildUpNotStated);

    private static EnergySource Source(int? minutes, string? limit) =>
        new()
        {
            Id = new("hydraulic"),
            Title = "Hydraulic pressure",
            Stored = true,
            Release = "controls moved through their travel",
            Proof = "gauge at nothing",
            Reaccumulates = true,
            RecheckMinutes = minutes,
            RecheckLimit = limit is null ? null : Pressure.Parse(limit).OrThrow(),
        };
}
