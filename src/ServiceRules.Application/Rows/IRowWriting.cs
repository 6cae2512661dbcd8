using ServiceRules.Application.Notices;
using ServiceRules.Application.Submitting;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Rows;

/// <summary>Changes rows, in the transaction of the filing that they tell of.</summary>
public interface IRowWriting : IRowReading
{
    /// <summary>Puts the rows of one version in the place of those that it had.</summary>
    void Put(RecordRows rows);

    /// <summary>Marks which version of a record is the newest: what others show bears on nothing any more.</summary>
    void Supersede(string record, long newest);

    /// <summary>The records of which a row was made of this content: a version, or its newest assessment.</summary>
    IReadOnlyList<string> RecordsMadeOf(string content);

    /// <summary>Removes every row of a record, and what was answered to those who sent it.</summary>
    void Drop(string record);

    /// <summary>Removes the rows of versions between two places; answers to keys stay.</summary>
    void Clear(long from, long until);

    /// <summary>Says how many entries of the log the rows cover.</summary>
    void Cover(long size);

    /// <summary>Keeps what was answered to a submission, and removes some answers that are too old by then.</summary>
    void Keep(AnsweredKey answered);

    /// <summary>Keeps that a recipient is to be told; nothing happens when it is kept already.</summary>
    void Owe(Notice notice);

    /// <summary>Keeps what came of an attempt.</summary>
    /// <returns>Whether it was still waiting: of two that were at it, the first to settle it tells.</returns>
    bool Settle(Notice notice);

    /// <summary>Has one that was given up tried from the first attempt on.</summary>
    /// <returns>Whether it was given up; else nothing is changed.</returns>
    bool Renew(long entry, string recipient);

    /// <summary>Keeps that the file of an export is whole, with what is filed of it.</summary>
    /// <returns>Whether the turn of whoever writes it still held.</returns>
    bool EndExport(string id, string turn, long rows, ContentHash digest);

    /// <summary>Removes what was answered where this person answers for it.</summary>
    void DropAnswers(string pseudonym);

    /// <summary>The sites of the versions of a record, but of rows that are not those that were made of the log.</summary>
    IReadOnlyDictionary<long, string> Sites(string record);
}
