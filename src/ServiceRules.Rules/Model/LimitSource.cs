namespace ServiceRules.Rules.Model;

/// <summary>Where a zone comes from.</summary>
public enum LimitSource
{
    /// <summary>Lower and upper limit of the sheet.</summary>
    Sheet,

    /// <summary>Target of the setting order (or of the job card, where it asks for one) with its tolerance.</summary>
    SettingOrder,

    /// <summary>The sheet's worn-reel value: below it, the bedknife must have been repositioned in or before this job.</summary>
    WornBelow,
}
