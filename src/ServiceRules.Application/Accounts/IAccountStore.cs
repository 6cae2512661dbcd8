namespace ServiceRules.Application.Accounts;

/// <summary>Where accounts and keys are kept. Safe to share between threads.</summary>
public interface IAccountStore : IAccountReading
{
    /// <summary>Runs one transaction; when <paramref name="work"/> throws, nothing of it remains.</summary>
    T Write<T>(Func<IAccountWriting, T> work);
}
