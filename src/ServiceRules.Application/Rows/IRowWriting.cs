using ServiceRules.Application.Submitting;

namespace ServiceRules.Application.Rows;

/// <summary>Changes rows, in the transaction of the filing that they tell of.</summary>
public interface IRowWriting : IRowReading
{
    /// <summary>Puts the rows of one version in the place of those that it had.</summary>
    void Put(RecordRows rows);

    /// <summary>Marks which version of a record is the newest.</summary>
    void Supersede(string record, long newest);

    /// <summary>Removes every row of a record.</summary>
    void Drop(string record);

    /// <summary>Removes every row that comes from the log; answers to keys stay.</summary>
    void Clear();

    /// <summary>Says how many entries of the log the rows cover.</summary>
    void Cover(long size);

    /// <summary>Keeps what was answered to a submission.</summary>
    void Keep(AnsweredKey answered);
}
