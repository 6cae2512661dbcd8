namespace ServiceRules.Formats.Cases;

/// <summary>What one step of a JSON Patch does (RFC 6902).</summary>
public enum PatchOperation
{
    Add,
    Remove,
    Replace,
    Move,
    Copy,
    Test,
}
