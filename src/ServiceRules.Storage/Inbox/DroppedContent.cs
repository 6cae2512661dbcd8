namespace ServiceRules.Storage.Inbox;

/// <summary>What reading a dropped file came to.</summary>
public abstract record DroppedContent
{
    private DroppedContent() { }

    /// <summary>Its bytes.</summary>
    public sealed record Bytes(ReadOnlyMemory<byte> All) : DroppedContent;

    /// <summary>It is not read, for a reason that does not pass.</summary>
    public sealed record Unfit(string What, string Accepted) : DroppedContent;

    /// <summary>Somebody still writes to it.</summary>
    public sealed record Unsettled : DroppedContent;
}
