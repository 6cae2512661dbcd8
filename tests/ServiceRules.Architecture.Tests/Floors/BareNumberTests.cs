namespace ServiceRules.Architecture.Tests.Floors;

/// <summary>A length is a <c>Length</c>. Every bare number that Domain shows is listed here with what it is.</summary>
public sealed class BareNumberTests
{
    private static readonly Type[] Bare = [typeof(double), typeof(float), typeof(decimal)];

    private static readonly Dictionary<string, string> Known = new(StringComparer.Ordinal)
    {
        ["Angle.Degrees"] = "the number inside an angle; its unit is its name",
        ["Angle.FromDegrees"] = "the door by which a number becomes an angle; its unit is its name",
        ["Calibration..ctor"] = "coverage factor, a pure number",
        ["Calibration.CoverageFactor"] = "coverage factor, a pure number",
        ["Clip.CutsPerMetre"] = "a count in each metre; its unit is its name",
        ["Clip.FewestBlades"] = "clip ratio, length per length",
        ["Clip.HighestSpeed"] = "clip ratio, length per length",
        ["Clip.LowestReelSpeed"] = "clip ratio, length per length",
        ["Clip.RatioTo"] = "clip ratio, length per length",
        ["Comparison.Probability"] = "probability of conformance, a pure number",
        ["CoverageFactor.At"] = "coverage factor, a pure number",
        ["CoverageFactor.Between"] = "coverage factor, a pure number",
        ["CoverageFactor.For"] = "coverage factor, a pure number",
        ["CoverageFactor.Infinite"] = "coverage factor, a pure number",
        ["DecisionRule.Guarded..ctor"] = "guard factor, a pure number",
        ["DecisionRule.Guarded.Factor"] = "guard factor, a pure number",
        ["DecisionRule.Guarded.LargestFactor"] = "guard factor, a pure number",
        ["DegreesOfFreedom.Of"] = "effective degrees of freedom are not whole",
        ["ExpandedUncertainty..ctor"] = "coverage factor, a pure number",
        ["DegreesOfFreedom.Stated"] = "effective degrees of freedom as documents state them are not whole",
        ["ExpandedUncertainty.CoverageFactor"] = "coverage factor, a pure number",
        ["StepTrial..ctor"] = "steps as the lever shares them, a pure number",
        ["StepTrial.Between"] = "steps as the lever shares them, a pure number",
        ["StepTrial.Steps"] = "steps as the lever shares them, a pure number",
        ["GroomerDepth.HeightFor"] = "share of a height, length per length",
        ["GroomerDepth.Share"] = "share of a height, length per length",
        ["HeightThread..ctor"] = "lever ratio of height to thread, length per length",
        ["HeightThread.Ratio"] = "lever ratio of height to thread, length per length",
        ["Length.FromInches"] = "the door by which a number becomes a length; its unit is its name",
        ["Length.FromMillimetres"] = "the door by which a number becomes a length; its unit is its name",
        ["Length.Millimetres"] = "the door by which a length becomes a number; its unit is its name",
        ["Length.op_Multiply"] = "a length times a pure number",
        ["NormalisedError.Value"] = "a length over a length",
        ["OperatingHours.Hours"] = "the number inside hours; its unit is its name",
        ["Parallelism..ctor"] = "slope of the datum, length per length",
        ["Parallelism.DatumSlope"] = "slope of the datum, length per length",
        ["PrintedLength.Of"] = "the printed figure; its unit is the other parameter",
        ["Probability.Of"] = "the door by which a number becomes a probability",
        ["Probability.Value"] = "the number inside a probability",
        ["RotationRate.RevolutionsPerMinute"] = "the number inside a rate; its unit is its name",
        ["RunningTime.FromHours"] = "the door by which a number becomes a time; its unit is its name",
        ["RunningTime.Hours"] = "the number inside a time; its unit is its name",
        ["Speed.MetresPerHour"] = "the number inside a speed; its unit is its name",
        ["StraightnessZone..ctor"] = "slope of the zone, length per length",
        ["StraightnessZone.Slope"] = "slope of the zone, length per length",
        ["TakeUp..ctor"] = "rate over rate, a pure number",
        ["TakeUp.IsHigh"] = "a multiple, a pure number",
        ["TakeUp.Times"] = "rate over rate, a pure number",
        ["TakeUp.UsualMultiple"] = "a multiple, a pure number",
        ["StatedBudget.CoverageFactor"] = "coverage factor, a pure number",
        ["StatedPart..ctor"] = "takes the coverage factor of a certificate, a pure number",
        ["StatedPart.CoverageFactor"] = "coverage factor, a pure number",
        ["Temperature.DegreesCelsius"] = "the number inside a temperature; its unit is its name",
        ["UncertaintyContribution.Calibration"] = "coverage factor, a pure number",
        ["WaveCandidate..ctor"] = "share of a pitch, length per length",
        ["WaveCandidate.Off"] = "share of a pitch, length per length",
        ["WearRate.FromMillimetresPerHour"] =
            "the door by which a number becomes a rate; its unit is its name",
        ["WearRate.MillimetresPerHour"] = "the number inside a rate; its unit is its name",
    };

    private static IReadOnlyList<string> Found { get; } =
    [
        .. PublicMember
            .Of(House.Compiled(House.Named("Domain")))
            .Where(member => member.Types.Any(Bare.Contains))
            .Select(member => member.Name)
            .Distinct(StringComparer.Ordinal),
    ];

    [Fact]
    public void PublicSurface_BareNumber_IsListedWithItsReason() =>
        Shortfalls.None(Found.Except(Known.Keys), "bare numbers that Domain shows without a reason");

    [Fact]
    public void PublicSurface_ListedBareNumber_StillExists() =>
        Shortfalls.None(Known.Keys.Except(Found), "listed, but no longer there");
}
