namespace ServiceRules.Domain.Records;

/// <summary>What a visit is for. Each task has its own minimum of readings and steps, stated by rules.</summary>
public enum ServiceTask
{
    /// <summary>Before use: contact or gap, edges, height by eye, general condition.</summary>
    DailyCheck,

    /// <summary>Height of cut read at both ends of every unit; nothing need be turned.</summary>
    HeightCheck,

    /// <summary>Height of cut set to a new target.</summary>
    HeightChange,

    /// <summary>A short in-season sharpening or reset of the clearance.</summary>
    TouchUp,

    /// <summary>Everything measured, adjusted and measured again.</summary>
    FullService,

    /// <summary>Reel or bedknife ground; the unit is set again from nothing.</summary>
    Grind,

    /// <summary>Reel run backwards with abrasive paste.</summary>
    Lap,

    /// <summary>Something stuck in the reel is removed.</summary>
    ClearBlockage,

    /// <summary>Looked at and measured; nothing turned.</summary>
    Inspect,

    /// <summary>Stripped, bearings and seals, ground, squared and set.</summary>
    SeasonalOverhaul,
}
