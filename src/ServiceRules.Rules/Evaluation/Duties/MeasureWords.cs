using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>What a protective measure is called in a sentence.</summary>
public static class MeasureWords
{
    /// <summary>What keeps hands from the energy, or the energy from the hands, where nothing is isolated.</summary>
    public static ImmutableArray<ProtectiveMeasure> AgainstEnergy { get; } =
    [
        ProtectiveMeasure.LongHandledBrush,
        ProtectiveMeasure.ExtensionTool,
        ProtectiveMeasure.GuardsInPlace,
        ProtectiveMeasure.EngineOff,
        ProtectiveMeasure.KeyRemovedAndKept,
        ProtectiveMeasure.SingleOperatorControl,
        ProtectiveMeasure.SecondPersonAtStopControl,
    ];

    /// <summary>
    /// What keeps people from what turns while the machine runs, or lets nobody but those at the stop run it. What is said of
    /// a machine that stands still, such as the engine off, is none of it. Common practice, no source.
    /// </summary>
    public static ImmutableArray<ProtectiveMeasure> AgainstTheRun { get; } =
    [
        ProtectiveMeasure.GuardsInPlace,
        ProtectiveMeasure.LongHandledBrush,
        ProtectiveMeasure.ExtensionTool,
        ProtectiveMeasure.ExclusionZone,
        ProtectiveMeasure.SingleOperatorControl,
        ProtectiveMeasure.SecondPersonAtStopControl,
    ];

    /// <summary>Said of a machine that stands still.</summary>
    public static bool IsOfStandstill(ProtectiveMeasure measure) =>
        measure
            is ProtectiveMeasure.EngineOff
                or ProtectiveMeasure.KeyRemovedAndKept
                or ProtectiveMeasure.ReelsAtRestSeen;

    /// <summary>Worn or left off by the person: it makes a blade that turns no less sharp.</summary>
    public static bool IsOnThePerson(ProtectiveMeasure measure) =>
        measure
            is ProtectiveMeasure.EyeProtection
                or ProtectiveMeasure.HairAndClothingSecured
                or ProtectiveMeasure.NoGlovesNearTurningReel;

    /// <summary>The measure as people speak of it.</summary>
    /// <param name="measure">The measure.</param>
    public static string Of(ProtectiveMeasure measure) =>
        measure switch
        {
            ProtectiveMeasure.LongHandledBrush => "a long-handled brush",
            ProtectiveMeasure.GuardsInPlace => "guards in place",
            ProtectiveMeasure.SingleOperatorControl => "one person alone at the controls",
            ProtectiveMeasure.SecondPersonAtStopControl => "a second person at the stop",
            ProtectiveMeasure.SlowestReelSpeed => "the slowest reel speed",
            ProtectiveMeasure.ExclusionZone => "everybody else kept out",
            ProtectiveMeasure.EyeProtection => "eyes protected",
            ProtectiveMeasure.HairAndClothingSecured => "hair and clothing secured",
            ProtectiveMeasure.NoGlovesNearTurningReel => "no gloves near the turning reel",
            ProtectiveMeasure.UnitSecuredAgainstRolling => "the unit secured against rolling",
            ProtectiveMeasure.BrakeOnWheelsChocked => "brake on and wheels chocked",
            ProtectiveMeasure.KeyRemovedAndKept => "the key out and kept",
            ProtectiveMeasure.UnitLowered => "the unit on the ground",
            ProtectiveMeasure.ReelsAtRestSeen => "the reels seen at rest",
            ProtectiveMeasure.EngineOff => "the engine off",
            ProtectiveMeasure.ExtensionTool => "a tool that keeps hands away",
            ProtectiveMeasure.Other => "another measure told in words",
            _ => throw new ArgumentOutOfRangeException(
                nameof(measure),
                measure,
                "protective measures are a closed family"
            ),
        };
}
