namespace ServiceRules.Reporting.Layout;

/// <summary>What stands before a word.</summary>
internal enum WordLead
{
    /// <summary>Nothing, but a line may end here (after a hyphen or slash).</summary>
    Joint,
    Space,
    NewLine,
}
