using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Records;

/// <summary>How the machine went when it was tried on turf, and what was measured on the turf, before anything was turned.</summary>
/// <param name="GroundSpeed">Ground speed, paced by a stopwatch rather than read from a dial.</param>
/// <param name="ReelSpeed">Turns of the reel, measured.</param>
/// <param name="EffectiveHeight">Height of the mown turf, read with a prism.</param>
/// <param name="WavePitch">A wave on the turf, from tip to tip.</param>
public sealed record MowingTest(
    Speed? GroundSpeed,
    RotationRate? ReelSpeed,
    PrintedLength? EffectiveHeight,
    PrintedLength? WavePitch
);
