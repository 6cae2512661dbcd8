namespace ServiceRules.Reporting.Timestamping;

/// <summary>The authority gave no time-stamp that would hold. No report is made then.</summary>
public sealed class TimestampException : Exception
{
    public TimestampException(string message, Exception? cause = null)
        : base(message, cause) { }
}
