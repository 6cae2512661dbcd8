using ServiceRules.Domain.Measurement;

namespace ServiceRules.Domain.Tests.Measurement;

public sealed class CoverageLevelTests
{
    [Fact]
    public void Parse_WhatACertificatePrints_IsThatLevel()
    {
        Assert.True(CoverageLevel.Parse("95 %").TryGet(out var ninetyFive, out _));
        Assert.Same(CoverageLevel.NinetyFive, ninetyFive);
        Assert.True(CoverageLevel.Parse("99.73 %").TryGet(out var threeSigma, out _));
        Assert.Same(CoverageLevel.ThreeSigma, threeSigma);
    }

    [Theory]
    [InlineData("95%")]
    [InlineData("97 %")]
    [InlineData("")]
    public void Parse_AnythingElse_NamesWhatWouldBeAccepted(string text)
    {
        Assert.False(CoverageLevel.Parse(text).TryGet(out _, out var failure));

        Assert.Equal(
            $"`{text}` is no level that factors are known for; "
                + "accepted: one of `68.27 %`, `90 %`, `95 %`, `95.45 %`, `99 %`, `99.73 %`",
            failure.ToString()
        );
    }
}
