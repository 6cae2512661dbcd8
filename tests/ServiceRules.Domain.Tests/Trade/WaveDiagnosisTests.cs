using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Trade;

namespace ServiceRules.Domain.Tests.Trade;

public sealed class WaveDiagnosisTests
{
    private static readonly Clip Mown = new(
        Speed.Parse("6 km/h").OrThrow(),
        RotationRate.Parse("2200 rev/min").OrThrow(),
        15
    );

    // Bands as published: up to 2 in; 6 to 8 in, printed also as 150 to 200 mm.
    [Theory]
    [InlineData("0.1 mm", WaveBand.Marcelling)]
    [InlineData("2 in", WaveBand.Marcelling)]
    [InlineData("50.81 mm", WaveBand.Neither)]
    [InlineData("149.9 mm", WaveBand.Neither)]
    [InlineData("150 mm", WaveBand.Washboarding)]
    [InlineData("6 in", WaveBand.Washboarding)]
    [InlineData("8 in", WaveBand.Washboarding)]
    [InlineData("203.3 mm", WaveBand.Neither)]
    public void Of_Pitch_FallsInThePublishedBand(string pitch, WaveBand band) =>
        Assert.Equal(band, WaveDiagnosis.Of(Printed(pitch), null, null, null).Band);

    [Fact]
    public void Of_FortyFiveMillimetres_IsOnceATurnOfTheReel()
    {
        var diagnosis = WaveDiagnosis.Of(Mm(45), Mown, Mm(50), Mm(64));

        Assert.Equal(
            [WaveCause.Reel, WaveCause.FrontRoller, WaveCause.RearRoller, WaveCause.Blade],
            diagnosis.Candidates.Select(candidate => candidate.Cause)
        );
        // 45 of 100 000 / 2200 = 45.4545: one part in a hundred short.
        Assert.Equal(-0.01m, Math.Round(diagnosis.Candidates[0].Off, 12));
        Assert.Equal(
            [true, false, false, false],
            diagnosis.Candidates.Select(candidate => candidate.IsLikely)
        );
    }

    [Fact]
    public void Of_NothingKnown_HasNoCandidate() =>
        Assert.Empty(WaveDiagnosis.Of(Mm(45), null, null, null).Candidates);

    [Fact]
    public void Of_RollersAlike_NamesTheFrontOneFirst() =>
        Assert.Equal(
            [WaveCause.FrontRoller, WaveCause.RearRoller],
            WaveDiagnosis.Of(Mm(160), null, Mm(51), Mm(51)).Candidates.Select(candidate => candidate.Cause)
        );

    // A reel pitch of exactly 45 mm: 5.4 km/h and 2000 rev/min; a tenth either way is 40.5 and 49.5 mm.
    [Theory]
    [InlineData("40.5 mm", true)]
    [InlineData("40.4 mm", false)]
    [InlineData("49.5 mm", true)]
    [InlineData("49.6 mm", false)]
    public void IsLikely_WithinATenth_EndsIncluded(string pitch, bool likely)
    {
        Clip slow = new(Speed.Parse("5.4 km/h").OrThrow(), RotationRate.Parse("2000 rev/min").OrThrow(), 9);

        var reel = WaveDiagnosis
            .Of(Printed(pitch), slow, null, null)
            .Candidates.Single(c => c.Cause == WaveCause.Reel);

        Assert.Equal(likely, reel.IsLikely);
    }

    [Fact]
    public void Of_NoPitch_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => WaveDiagnosis.Of(Length.Zero, Mown, null, null));

    private static Length Mm(decimal millimetres) => Length.FromMillimetres(millimetres);

    private static Length Printed(string text) => PrintedLength.Parse(text).OrThrow().Value;
}
