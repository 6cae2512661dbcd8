namespace ServiceRules.Oracle;

/// <summary>How a place stands at the end of the log.</summary>
internal enum SpotState
{
    Known,
    Void,
    Conflicting,
}
