namespace ServiceRules.Rules.Model;

/// <summary>Parts of a record that may be required.</summary>
public enum RequiredPart
{
    /// <summary>Sign-off.</summary>
    SignOff,

    /// <summary>Follow-up after first use.</summary>
    FollowUp,

    /// <summary>Every safety defect found is closed.</summary>
    SafetyDefectsClosed,

    /// <summary>A blockage was cleared with a tool, never by hand.</summary>
    BlockageByTool,
}
