// Package account keeps who may reach a book over a network: people with roles and
// passwords, tokens for programs, sessions of browsers, and what happened at the door.
// They are kept in the book's own file, beside its revisions.
//
// # Roles
//
// A technician sees all jobs and enters and signs. Somebody of the office sees all jobs
// and enters, and signs nothing, since who signs was at the door. An owner sees the jobs of one
// customer and enters nothing. Accounts themselves are managed on the machine that has the book.
//
// # Secrets
//
// Of a password only a hash is kept, by Argon2id (RFC 9106), of a token and of what a browser
// holds only the SHA-256: they are random, so nobody can guess them from it.
package account
