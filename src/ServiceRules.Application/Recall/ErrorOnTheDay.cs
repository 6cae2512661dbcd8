namespace ServiceRules.Application.Recall;

/// <summary>What is known of the error on the day of one record.</summary>
public enum ErrorOnTheDay
{
    /// <summary>It was there in full: the day lies in the stated time, or the record's own zero check shows it.</summary>
    InFull,

    /// <summary>It may have been there in part, in full or not at all.</summary>
    NotKnown,

    /// <summary>It was not there: the record's own zero check came out right.</summary>
    Absent,
}
