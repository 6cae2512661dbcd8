using ServiceRules.Domain.Records;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Checking.SoundLibrary;

namespace ServiceRules.Rules.Tests.Checking;

/// <summary>What the pack check lets pass, close to what it tells.</summary>
public class PackCheckEdgeTests
{
    [Fact]
    public void Of_CitedJurisdictionAndAdvisingProgramme_TellsNothing()
    {
        Assert.Empty(PackCheck.Of(Cited(PackLayer.Jurisdiction, "key-kept")));
        Assert.Empty(PackCheck.Of(With(Limit, Programme)));
    }

    [Theory]
    // The limits leave 0.75 thousandths of an inch, 0.01905 mm, either way; √(0.019² + 0.01²/3) is more, with 0.017 less.
    [InlineData("0.019 mm", true)]
    [InlineData("0.017 mm", false)]
    public void Of_AGaugeAboutTheRoomOfALimit_TellsOnlyWhatItCannotProve(string uncertainty, bool isTold)
    {
        var library = Sound with
        {
            Instruments =
            [
                Owned("CL-01", "0.01 mm", "0.500 mm", MeasuredQuantity.Clearance),
                Owned("CL-02", "0.01 mm", uncertainty, MeasuredQuantity.Clearance),
            ],
        };

        var told = PackCheck.Of(library).Where(one => one.Code == DiagnosticCode.NoGaugeCanProve).ToList();

        Assert.Equal(isTold, told.Count == 1);
        Assert.All(told, one => Assert.Contains("`CL-02`", one.What, StringComparison.Ordinal));
        Assert.All(told, one => Assert.Equal(DiagnosticLevel.Notice, one.Level));
    }
}
