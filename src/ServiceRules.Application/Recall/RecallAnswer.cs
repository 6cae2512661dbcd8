namespace ServiceRules.Application.Recall;

/// <summary>What becomes of a past verdict once a gauge is found out.</summary>
public enum RecallAnswer
{
    /// <summary>It comes out the same without and with the error.</summary>
    Stands,

    /// <summary>It comes out the same without the error, and otherwise with it: since when it was there decides.</summary>
    CannotBeTold,

    /// <summary>The error was there, and the verdict comes out otherwise.</summary>
    Changes,
}
