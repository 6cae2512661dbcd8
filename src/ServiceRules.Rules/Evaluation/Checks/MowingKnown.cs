using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Trade;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// The speeds that a unit mows at: as the machine was tried on turf, else as the setting order has them.
/// </summary>
/// <param name="Ground">Ground speed, where known.</param>
/// <param name="Reel">Turns of the reel, where known.</param>
/// <param name="Evidence">Where the record states them.</param>
internal sealed record MowingKnown(Speed? Ground, RotationRate? Reel, ImmutableArray<string> Evidence)
{
    public static MowingKnown Of(JobFrame frame, UnitFrame unit)
    {
        var tested = frame.Record.Machine.Tested;
        return new(
            tested?.GroundSpeed ?? unit.Mowing?.GroundSpeed,
            tested?.ReelSpeed ?? unit.Mowing?.ReelSpeed,
            tested is { GroundSpeed: not null } or { ReelSpeed: not null } ? [Pointers.Tested] : []
        );
    }

    public Clip? Clip(int blades) =>
        Ground is { } ground && Reel is { } reel ? new(ground, reel, blades) : null;
}
