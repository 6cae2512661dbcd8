using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Tests.Records;

/// <summary>What kinds of instrument read.</summary>
public sealed class InstrumentReachTests
{
    private static readonly Observation Length = new Observation.Measured(
        PrintedLength.Parse("1.00 mm").OrThrow()
    );

    private static readonly Observation Try = new Observation.FeelerTest(
        [PrintedLength.Parse("0.05 mm").OrThrow()],
        Passes: true
    );

    [Theory]
    [InlineData(InstrumentKind.HeightGauge, MeasuredQuantity.HeightOfCut, true)]
    [InlineData(InstrumentKind.FeelerGauge, MeasuredQuantity.HeightOfCut, false)]
    [InlineData(InstrumentKind.PaperStrip, MeasuredQuantity.HeightOfCut, false)]
    [InlineData(InstrumentKind.BenchPlate, MeasuredQuantity.HeightOfCut, false)]
    [InlineData(InstrumentKind.AngleGauge, MeasuredQuantity.Clearance, false)]
    [InlineData(InstrumentKind.HeightGauge, MeasuredQuantity.Clearance, false)]
    [InlineData(InstrumentKind.FeelerGauge, MeasuredQuantity.Clearance, true)]
    [InlineData(InstrumentKind.DiameterTape, MeasuredQuantity.ReelDiameter, true)]
    [InlineData(InstrumentKind.DiameterTape, MeasuredQuantity.LandWidth, false)]
    [InlineData(InstrumentKind.Micrometer, MeasuredQuantity.HeightOfCut, false)]
    [InlineData(InstrumentKind.DepthGauge, MeasuredQuantity.BedknifeLip, true)]
    [InlineData(InstrumentKind.FixedSizePiece, MeasuredQuantity.HeightOfCut, false)]
    [InlineData(InstrumentKind.FixedSizePiece, MeasuredQuantity.Clearance, false)]
    [InlineData(InstrumentKind.FixedSizePiece, MeasuredQuantity.ShieldGap, false)]
    [InlineData(InstrumentKind.FixedSizePiece, MeasuredQuantity.RearRollerOnPlate, false)]
    [InlineData(InstrumentKind.FixedSizePiece, MeasuredQuantity.ReelDiameter, false)]
    [InlineData(InstrumentKind.FixedSizePiece, MeasuredQuantity.BedknifeLip, false)]
    [InlineData(InstrumentKind.FixedSizePiece, MeasuredQuantity.LandWidth, false)]
    public void Reads_ALength_IsByTheTableOfTheTrade(
        InstrumentKind kind,
        MeasuredQuantity quantity,
        bool reads
    ) => Assert.Equal(reads, InstrumentReach.Reads(kind, quantity, Length));

    [Theory]
    [InlineData(InstrumentKind.FeelerGauge, MeasuredQuantity.Clearance, true)]
    [InlineData(InstrumentKind.FeelerGauge, MeasuredQuantity.HeightOfCut, false)]
    [InlineData(InstrumentKind.FixedSizePiece, MeasuredQuantity.HeightOfCut, true)]
    [InlineData(InstrumentKind.DialGauge, MeasuredQuantity.Clearance, false)]
    [InlineData(InstrumentKind.PaperStrip, MeasuredQuantity.Clearance, false)]
    public void Reads_WhatPassesOrDoesNot_AsksForAPieceOfAKnownSize(
        InstrumentKind kind,
        MeasuredQuantity quantity,
        bool reads
    ) => Assert.Equal(reads, InstrumentReach.Reads(kind, quantity, Try));

    /// <summary>Paper is cut by a strip, an angle is read off an angle gauge, and what is seen needs neither.</summary>
    [Fact]
    public void Reads_WhatIsNoLength_IsByItsOwnKind()
    {
        Assert.True(
            InstrumentReach.Reads(
                InstrumentKind.PaperStrip,
                MeasuredQuantity.Edge,
                new Observation.Paper(PaperResult.Cuts)
            )
        );
        Assert.False(
            InstrumentReach.Reads(
                InstrumentKind.HeightGauge,
                MeasuredQuantity.Edge,
                new Observation.Paper(PaperResult.Cuts)
            )
        );
        Assert.True(
            InstrumentReach.Reads(
                InstrumentKind.BenchPlate,
                MeasuredQuantity.BearingPlay,
                new Observation.Seen(Condition.Sound)
            )
        );
    }
}
