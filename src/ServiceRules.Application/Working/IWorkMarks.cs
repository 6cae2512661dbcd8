namespace ServiceRules.Application.Working;

/// <summary>How far the log was handed to the queue, for each kind of work that is owed for what is filed.</summary>
public interface IWorkMarks
{
    /// <summary>The first entry that was not looked at; null: this kind was never asked for.</summary>
    long? Find(string kind);

    /// <summary>Keeps how far it is; never back.</summary>
    void Move(string kind, long entry);
}
