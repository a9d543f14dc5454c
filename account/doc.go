// Package account keeps who may reach a book over a network: people with roles and
// passwords, tokens for programs, sessions of browsers, and what happened at the door.
// They are kept in the book's own file, beside its revisions.
//
// # Roles
//
// A technician sees all jobs and enters and signs. Somebody of the office sees all jobs
// and enters, and signs nothing, since who signs was at the door; they keep the accounts. An owner sees the jobs of one
// customer and enters nothing. Whoever is at the machine that has the book keeps accounts there too, and can always
// mend what went wrong; from elsewhere nobody can take away the last account that keeps accounts.
//
// # Invitations
//
// Whoever makes an account for somebody else need not know their password: a code, shown once, lets that
// person choose it, once and for some days.
//
// # Secrets
//
// Of a password only a hash is kept, by Argon2id (RFC 9106), of a token, of a code and of what a browser
// holds only the SHA-256: they are random, so nobody can guess them from it.
package account
