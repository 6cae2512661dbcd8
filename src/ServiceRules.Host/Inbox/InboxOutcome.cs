namespace ServiceRules.Host.Inbox;

/// <summary>Where a dropped file went.</summary>
internal enum InboxOutcome
{
    /// <summary>All of it stands.</summary>
    Filed,

    /// <summary>Something is wrong with it, or with a part of it.</summary>
    Refused,
}
